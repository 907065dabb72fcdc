import type { Curve } from '../../curves/curve.ts';
import { closestPoint } from '../../curves/geometry/closest-point.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { distance, type Point } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { aStep, type EdgeStep, stepPointList } from '../../job/steps/step-kinds.ts';
import { firstOf, neighbors } from '../../units/checked.ts';
import { Fault } from '../../units/fault.ts';
import { readOnRule } from '../../units/rule.ts';
import { offsetsAt } from '../offsets.ts';
import type { Part } from '../part.ts';

/** A nail of a batten, or a pin of a spline, to be written into the job. */
export interface NewNail {
  readonly what: 'nail' | 'point';
  readonly edge: string;
  /** The key of the list it goes into: `edges.back[1].through`. */
  readonly key: string;
  readonly index: number;
  /** Where it stands, to the graduation, mm. */
  readonly at: Point;
  readonly typed: readonly [station: string, offset: string];
}

interface SettableRun {
  readonly edge: string;
  readonly step: EdgeStep;
  readonly curve: Curve;
  readonly what: NewNail['what'] | undefined;
  /** Both its ends and what stands between them, in order. */
  readonly places: readonly Point[];
}

const settableRuns = ({ edges }: Part): SettableRun[] =>
  edges.flatMap(({ name, runs }) =>
    runs.flatMap((run) => {
      const { step } = run;
      if (!step) return [];
      const passed = stepPointList(step);
      const places = [run.from, ...(passed?.points ?? []), run.to];
      return [{ edge: name, step, curve: run, what: passed?.what, places }];
    }),
  );

export const settableKinds = (part: Part): NewNail['what'][] => [
  ...new Set(settableRuns(part).flatMap(({ what }) => what ?? [])),
];

export const linesForNails = (part: Part): (readonly Segment[])[] =>
  settableRuns(part).flatMap(({ what, curve }) => (what ? [curve.path] : []));

export function parseNailKey(key: string): { readonly list: string; readonly index: number } | undefined {
  const [, list, index] = /^(.*\.through)\[(\d+)\]$/.exec(key) ?? [];
  return list === undefined ? undefined : { list, index: Number(index) };
}

/** The nail nearest to a hand within `reach` mm of a line. @throws Fault for a line that takes none */
export function nailAtPointer(part: Part, hand: Point, reach: number): NewNail | undefined {
  const near = settableRuns(part)
    .map((run) => ({ run, ...closestPoint(run.curve.exact, hand) }))
    .filter((near) => near.distance <= reach)
    // Where two lines meet, the one that takes a nail is meant.
    .toSorted((a, b) => Number(!a.run.what) - Number(!b.run.what) || a.distance - b.distance);
  const [first] = near;
  if (!first) return undefined;
  if (!first.run.what) throw noNailFault(first.run.step);
  return makeNail(part, first.run, first.run.what, first.at);
}

/** The nail halfway from a place of an edge to the next one, or back from the last. @throws Fault where the line takes none */
export function nailAfter(part: Part, edge: string, place: Point): NewNail {
  const own = settableRuns(part).filter((run) => run.edge === edge);
  const gaps = own.flatMap(nailGaps);
  const touches = (end: Point): boolean => distance(end, place) <= JOIN_MM;
  const gap = gaps.find(({ from }) => touches(from)) ?? gaps.find(({ to }) => touches(to));
  if (gap) return nailInGap(part, gap);
  const nearest = own
    .map(({ step, curve }) => ({ step, ...closestPoint(curve.exact, place) }))
    .toSorted((a, b) => a.distance - b.distance);
  throw noNailFault(firstOf(nearest).step);
}

/** The nail in the middle of the widest gap, of one edge if that takes any. @throws Fault where no line takes one */
export function nailInWidestGap(part: Part, edge?: string): NewNail {
  const gaps = settableRuns(part).flatMap(nailGaps);
  const own = gaps.filter(({ run }) => run.edge === edge);
  const [widest] = (own.length > 0 ? own : gaps).toSorted((a, b) => gapWidth(b) - gapWidth(a));
  if (widest) return nailInGap(part, widest);
  const steps = settableRuns(part).map(({ step }) => step);
  const nearest = steps.find(({ kind }) => kind === 'batten') ?? steps.find(({ kind }) => kind !== 'line');
  throw noNailFault(nearest ?? firstOf(steps));
}

const nailGaps = (run: SettableRun) => {
  const { what, places } = run;
  return what ? neighbors(places).map(([from, to]) => ({ run, what, from, to })) : [];
};

type NailGap = ReturnType<typeof nailGaps>[number];

const gapWidth = ({ from, to }: NailGap): number => to.x - from.x;

const nailInGap = (part: Part, { run, what, from, to }: NailGap): NewNail =>
  makeNail(part, run, what, { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 });

/** On the line at the graduation nearest in station, the offset to the graduation as well. */
function makeNail({ rule }: Part, run: SettableRun, what: NewNail['what'], near: Point): NewNail {
  const { edge, step, curve, places } = run;
  const station = readOnRule(near.x, rule);
  const offsets = offsetsAt({ pieces: curve.exact }, station.mark);
  const [onLine = near.y] = offsets.toSorted((a, b) => Math.abs(a - near.y) - Math.abs(b - near.y));
  const offset = readOnRule(onLine, rule);
  const index = places.slice(1, -1).filter(({ x }) => x < station.mark).length;
  const at = { x: station.mark, y: offset.mark };
  return { what, edge, key: `${step.key}.through`, index, at, typed: [station.text, offset.text] };
}

function noNailFault({ kind, key }: EdgeStep): Fault {
  const byApex =
    'fairlath places the nail of this batten, because the job gives its apex. To set nails, write "through" instead of "apex".';
  const none = `${aStep(kind)} has no nails. Use a batten (with nails) or a spline (with points).`;
  return new Fault('nails.none-here', kind === 'batten' ? byApex : none, key);
}
