import { angleFrom, direction, distance, dot, type Point, subtract } from '../../curves/geometry/point.ts';
import type { Edit } from '../../job/edit/edit-job.ts';
import { graduationMm } from '../../units/graduation.ts';
import { type Rule, readOnRule } from '../../units/rule.ts';
import { toBaseLine } from '../offsets.ts';
import type { Part } from '../part.ts';
import type { Grip, GripLength } from './draggable-points.ts';

/** Lengths to the graduation, as a person would type them; one that stays at its graduation stays as it was written. */
export function gripMoved(grip: Grip, to: Point, { rule }: Part): Edit[] {
  return grip.sets.flatMap((length) => {
    const shown = readOnRule(wishedLength(grip, length, to, rule), rule);
    return shown.mark === readOnRule(length.mm, rule).mark ? [] : [{ key: length.key, typed: shown.text }];
  });
}

function wishedLength({ at }: Grip, { mm, what, chord, outward }: GripLength, to: Point, rule: Rule): number {
  if (chord) return riseOrRadiusAt(what, to, chord, rule);
  if (outward !== undefined) return onItsSide(mm + dot(subtract(to, at), direction(outward)), mm, rule);
  return what === 'station' ? mm + to.x - at.x : to.y;
}

/** A grip moved so many graduations along the reference line and square off it. */
export function gripNudged(grip: Grip, along: number, off: number, part: Part): Edit[] {
  const mark = graduationMm(part.rule);
  return gripMoved(grip, { x: grip.at.x + along * mark, y: grip.at.y + off * mark }, part);
}

/** A parallel stays on its side, a graduation off at least. */
function onItsSide(wished: number, mm: number, rule: Rule): number {
  const side = Math.sign(mm);
  return side * Math.max(side * wished, graduationMm(rule));
}

/** The rise over a chord, or the radius of the arc with that rise: signed, never less than a graduation. */
function riseOrRadiusAt(
  what: GripLength['what'],
  to: Point,
  [from, end]: readonly [Point, Point],
  rule: Rule,
): number {
  const height = toBaseLine(to, { origin: from, angle: angleFrom(from, end) }).y;
  const least = graduationMm(rule);
  const rise = Math.abs(height) < least ? (height < 0 ? -least : least) : height;
  if (what === 'rise') return rise;
  const half = distance(from, end) / 2;
  const size = Math.min(Math.abs(rise), half);
  // Half a chord is the mean proportional of the rise and the rest of the diameter (Euclid III.35).
  return (Math.sign(rise) * (half ** 2 / size + size)) / 2;
}
