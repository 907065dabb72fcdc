import { isShoulder } from '../curves/geometry/pieces/piece.ts';
import { distance, type Point } from '../curves/geometry/point.ts';
import { JOIN_MM } from '../curves/geometry/tolerance.ts';
import { apexName, figuresOf } from '../curves/measurements.ts';
import { type Rule, readOnRule } from '../units/rule.ts';
import { edgeEnd, edgeStart } from './edge.ts';
import { offsetAt } from './offsets.ts';
import type { Landmark, Part, PartEdge } from './part.ts';

/** The places of a part worth a label, edge by edge, each once: ends, joins, shoulders, nails, points, apexes. */
export function landmarks(part: Part): Landmark[] {
  return part.edges.flatMap((edge) => {
    const found: Landmark[] = [];
    for (const mark of candidateLandmarks(edge, part.rule))
      if (!found.some((known) => cornersOf(known).some((at) => distance(at, mark.at) < JOIN_MM)))
        found.push({ ...mark, edge: edge.name });
    return found;
  });
}

export const cornersOf = ({ at, to }: Pick<Landmark, 'at' | 'to'>): readonly Point[] =>
  to ? [at, to] : [at];

/** An apex comes before a nail in the same place, a shoulder before the joins in its corners. */
function candidateLandmarks(edge: PartEdge, rule: Rule): Omit<Landmark, 'edge'>[] {
  const { runs } = edge;
  const places = (what: Landmark['what'], points: readonly Point[]) => points.map((at) => ({ what, at }));
  // A short arc around a corner has an apex, too, whose rise no rule shows.
  const apexes = runs.flatMap((run) => {
    const { apex } = figuresOf(run);
    return apex && readOnRule(apex.rise, rule).mark > 0 ? places(apexName(run), [apex.at]) : [];
  });
  const shoulders = runs.filter(({ exact }) => exact.some(isShoulder));
  const joins = runs.slice(1).map((run) => run.from);
  return [
    ...places('end', [edgeStart(edge), edgeEnd(edge)]),
    ...apexes,
    ...shoulders.map(({ from, to }) => ({ what: 'shoulder' as const, at: from, to })),
    ...places('join', joins),
    ...runs.flatMap(({ kind, pins }) => places(kind === 'batten' ? 'nail' : 'point', pins)),
  ];
}

export const isGivenPoint = (what: Landmark['what']): boolean => what === 'nail' || what === 'point';

/** Whether another edge lies below a landmark: its label then stands above, outside the part. */
export const isOnUpperEdge = ({ edges }: Part, { at, edge }: Landmark): boolean =>
  edges.some((other) => other.name !== edge && (offsetAt(other, at.x) ?? at.y) < at.y - JOIN_MM);
