import { paramCurve, pieceStart } from '../../curves/geometry/evaluate.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { distance } from '../../curves/geometry/point.ts';
import { subsegment } from '../../curves/geometry/subcurve.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { rootsOn, SAMPLES_PER_PIECE } from '../../curves/numeric/roots-and-minima.ts';
import { neighbors } from '../../units/checked.ts';

/** The contiguous stretches of a path left of a station. A closed path's last one runs on into its first. */
export function clipLeftOfStation(path: readonly Segment[], station: number): Segment[][] {
  const stretches: Segment[][] = [];
  let open = false;
  for (const piece of path.flatMap((segment) => splitAtStation(segment, station))) {
    const isLeft = paramCurve(piece)(0.5).x < station;
    const last = stretches.at(-1);
    if (isLeft && open && last) last.push(piece);
    else if (isLeft) stretches.push([piece]);
    open = isLeft;
  }
  return joinEnds(stretches);
}

function joinEnds(stretches: Segment[][]): Segment[][] {
  const [first, last] = [stretches[0], stretches.at(-1)];
  if (!first?.[0] || !last || first === last) return stretches;
  const end = paramCurve(last.at(-1) ?? first[0])(1);
  if (distance(end, pieceStart(first[0])) > JOIN_MM) return stretches;
  return [[...last, ...first], ...stretches.slice(1, -1)];
}

function splitAtStation(segment: Segment, station: number): Segment[] {
  const at = paramCurve(segment);
  const cuts = rootsOn((u) => at(u).x - station, SAMPLES_PER_PIECE).filter(
    (u) => distance(at(u), at(0)) > JOIN_MM && distance(at(u), at(1)) > JOIN_MM,
  );
  return neighbors([0, ...cuts, 1]).map(([from, to]) => subsegment(segment, from, to));
}
