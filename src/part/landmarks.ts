import { figuresOf } from '../curves/figures.ts';
import { isShoulder } from '../curves/piece.ts';
import { distance, type Point } from '../curves/point.ts';
import { JOIN_MM } from '../curves/tolerance.ts';
import { offsetAt } from './offsets.ts';
import type { Landmark, Part, PartEdge } from './part.ts';

/** The places of a part worth a label, edge by edge, each once: ends, joins, shoulders, nails and pins, apexes. */
export function landmarks(part: Part): Landmark[] {
  return part.edges.flatMap((edge) => {
    const found: Landmark[] = [];
    const add = (what: Landmark['what'], at: Point): void => {
      if (!found.some((known) => distance(known.at, at) < JOIN_MM)) found.push({ what, at, edge: edge.name });
    };
    for (const [what, at] of placesOf(edge)) add(what, at);
    return found;
  });
}

/** An apex first, so that a nail that stands in it does not hide it. */
function placesOf(edge: PartEdge): [Landmark['what'], Point][] {
  const apexes = edge.runs.flatMap((run) => figuresOf(run).apex?.at ?? []);
  const ends = [edge.runs[0]!.from, edge.runs.at(-1)!.to];
  const shoulders = edge.runs.flatMap(({ exact }) => exact).filter(isShoulder);
  const joins = edge.runs.slice(1).map((run) => run.from);
  const pins = edge.runs.flatMap((run) => run.pins);
  return [
    ...ends.map((at) => ['end', at] as [Landmark['what'], Point]),
    ...apexes.map((at) => ['apex', at] as [Landmark['what'], Point]),
    ...shoulders.flatMap(({ from, to }) =>
      [from, to].map((at) => ['shoulder', at] as [Landmark['what'], Point]),
    ),
    ...joins.map((at) => ['join', at] as [Landmark['what'], Point]),
    ...pins.map((at) => ['pin', at] as [Landmark['what'], Point]),
  ];
}

/** Whether another edge lies below a landmark: its label then stands above, outside the part. */
export const isOnUpper = ({ edges }: Part, { at, edge }: Landmark): boolean =>
  edges.some((other) => other.name !== edge && (offsetAt(other, at.x) ?? at.y) < at.y - JOIN_MM);
