import { firstOf, itemAt, lastOf } from '../../units/checked.ts';
import { ChordFrame } from '../geometry/chord-frame.ts';
import { elasticaStates } from '../geometry/pieces/elastica-series.ts';
import type { Piece } from '../geometry/pieces/piece.ts';
import { direction, dot, leftNormal, type Point, scale } from '../geometry/point.ts';
import { JOIN_MM } from '../geometry/tolerance.ts';

export interface PinForce {
  readonly at: Point;
  /** Direction of the tangent at the pin, radians from the reference line. */
  readonly angle: number;
  /** On the strip along its left normal (−sin, cos), per bending stiffness EI, 1/mm²: times EI (N·mm²) in newtons. */
  readonly reaction: number;
  /** Where a nail, which can only push, must be: on the right if its force points left. Undefined without a force. */
  readonly side: 'left' | 'right' | undefined;
}

/** A force below this share of the largest is rounding: the strip would be there without the pin. */
const NO_FORCE = 1e-9;

/** The jump in the rate of curvature at every pin; at a held end the push of the sleeve, without its moment. */
export function pinForces(exact: readonly Piece[]): PinForce[] {
  const spans = exact.filter((piece) => piece.type === 'elastica');
  const pins = spans.map(({ from, angle, curvatureRate }) => ({ at: from, angle, reaction: curvatureRate }));
  spans.forEach((span, i) => {
    const { x, y, angle, rate } = elasticaStates(span)(span.length);
    pins[i + 1] ??= { at: { x, y }, angle, reaction: 0 };
    itemAt(pins, i + 1).reaction -= rate;
  });
  const largest = Math.max(...pins.map(({ reaction }) => Math.abs(reaction)));
  return pins.map((pin) => ({ ...pin, side: nailSide(pin.reaction, largest) }));
}

const nailSide = (reaction: number, largest: number): 'left' | 'right' | undefined =>
  Math.abs(reaction) <= NO_FORCE * largest ? undefined : reaction > 0 ? 'right' : 'left';

/** Inner pins (by index) that would have to pull from between strip and chord: they go on the other side (`side`). */
export function pulling(forces: readonly PinForce[]): number[] {
  const frame = new ChordFrame(firstOf(forces).at, lastOf(forces).at);
  return forces.flatMap(({ at, angle, reaction, side }, i) => {
    const height = frame.height(at);
    if (i === 0 || i === forces.length - 1 || side === undefined || Math.abs(height) < JOIN_MM) return [];
    const force = scale(leftNormal(direction(angle)), reaction);
    return dot(force, frame.normal) * height < 0 ? [i] : [];
  });
}
