import { distance, type Point, point } from '../../curves/geometry/point.ts';
import type { Part } from '../../part/part.ts';
import type { CheckDistance, Layout } from '../../tiling/layout.ts';
import { sheetShowing, tapedSeams } from '../../tiling/taped-seams.ts';
import { lengthWithoutUnit, type Station } from '../drawing/dimensions.ts';

/** A distance across one seam, from a station line on one sheet to a station line on the other. */
export interface SeamCheck extends CheckDistance {
  readonly sheets: readonly [string, string];
}

interface MarkedPlace {
  readonly at: Point;
  readonly edge: string;
  readonly sheet: string;
}

/** A place on another edge is taken only where no edge crosses the seam between two stations, mm. */
const OTHER_EDGE_MM = 10_000;

/** The shortest distance across every seam between places where a station line meets an edge. */
export function seamChecks(part: Part, layout: Layout, stations: readonly Station[]): SeamCheck[] {
  const bySheet = new Map<string, MarkedPlace[]>();
  for (const { station, offsets } of stations)
    for (const [e, { name }] of part.edges.entries()) {
      const offset = offsets[e];
      if (offset === undefined) continue;
      const at = point(station, offset);
      const sheet = sheetShowing(layout, at).name;
      bySheet.set(sheet, [...(bySheet.get(sheet) ?? []), { at, edge: name, sheet }]);
    }
  return tapedSeams(layout).flatMap(({ sheets }) => {
    const [these, those] = sheets.map((name) => bySheet.get(name) ?? []) as [MarkedPlace[], MarkedPlace[]];
    const pairs = these.flatMap((a) => those.map((b) => ({ a, b, cost: costOf(a, b) })));
    const best = pairs.reduce<(typeof pairs)[number] | undefined>(
      (least, pair) => (least === undefined || pair.cost < least.cost - 1e-6 ? pair : least),
      undefined,
    );
    return best ? [seamCheck(part, sheets, best.a, best.b)] : [];
  });
}

const costOf = (a: MarkedPlace, b: MarkedPlace): number =>
  distance(a.at, b.at) + (a.edge === b.edge ? 0 : OTHER_EDGE_MM);

function seamCheck(
  { rule }: Part,
  sheets: SeamCheck['sheets'],
  one: MarkedPlace,
  other: MarkedPlace,
): SeamCheck {
  const [a, b] = one.at.x <= other.at.x ? [one, other] : [other, one];
  const [from, to] = [a, b].map(({ at }) => lengthWithoutUnit(at.x, rule)) as [string, string];
  const label =
    a.edge === b.edge
      ? `${a.edge}, station ${from} to ${to}`
      : `${a.edge} at station ${from} to ${b.edge} at station ${to}`;
  return { sheets, label, from: a.at, to: b.at, length: distance(a.at, b.at) };
}
