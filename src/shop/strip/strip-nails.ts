import { add, direction, leftNormal, type Point, scale } from '../../curves/geometry/point.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import { MPA_PER_PSI } from '../wood/pound-force.ts';
import type { SprungLine, SprungPin } from './sprung-line.ts';

/** A side of the strip, going from its start to its end: left is up for a strip lying along the reference line. */
export type StripSide = 'left' | 'right';

/** A nail to drive, or a pair of nails. */
export interface StripNail {
  /** Where the traced face passes, on the line. */
  readonly at: Point;
  /** How hard nail and strip press on each other, N. */
  readonly force: number;
  /**
   * The side of the strip it stands on: it keeps the strip from springing there. `either`: it bears no
   * load, so that one on either side will do. `both`: a held end, kept between two nails.
   */
  readonly side: StripSide | 'either' | 'both';
  /** The middles of the nails: one; for `either` the two to choose from; for `both` two. */
  readonly centers: readonly Point[];
}

/** What is nailed: a strip of a thickness (at its start), stiffness there, nails, the face the pencil follows. */
export interface NailingOptions {
  readonly thickness: number;
  readonly stiffness: number;
  readonly diameter: number;
  readonly traced: StripSide;
}

/** A reaction under this share of the greatest is rounding: the nail bears nothing. */
const UNLOADED_SHARE = 1e-9;

/**
 * Where to drive the nails so that the traced face of the strip lies on the line. A nail is round and
 * touches a face: on the traced side its middle stands half its diameter off the line, on the other side
 * the strip's thickness more. Nails on both sides of a strip are the rule: those of the ends hold it down.
 *
 * The curve is that of the strip's middle, here taken for its face, half a thickness off. Over one nail, for the
 * thickest safe strip of any wood here and a line up to a third of its chord high, the face so held strays by less than
 * 1/1000 of the line's rise, 1/600 where the nail stands within a tenth of an end: on a rise of 100 mm by half the
 * width of a pencil line at most.
 */
export function placeNails({ pins, ends }: SprungLine, nailing: NailingOptions): readonly StripNail[] {
  // A strip's curve does not depend on its stiffness; its forces are in proportion.
  const forces = pins.map(({ reaction }) => nailing.stiffness * reaction);
  const idle = UNLOADED_SHARE * Math.max(...forces.map(Math.abs));
  return pins.map((pin, i) => {
    const force = forces[i]!;
    const held = (i === 0 && ends[0] === 'held') || (i === pins.length - 1 && ends[1] === 'held');
    const side = held ? 'both' : Math.abs(force) <= idle ? 'either' : force > 0 ? 'right' : 'left';
    const sides: readonly StripSide[] = side === 'both' || side === 'either' ? ['left', 'right'] : [side];
    return {
      at: pin.at,
      force: Math.abs(force),
      side,
      centers: sides.map((each) => nailCenter(each, pin, nailing)),
    };
  });
}

function nailCenter(side: StripSide, { at, angle, share }: SprungPin, nailing: NailingOptions): Point {
  const { thickness, diameter, traced } = nailing;
  const off = diameter / 2 + (side === traced ? 0 : thickness * share);
  return add(at, scale(leftNormal(direction(angle)), side === 'left' ? off : -off));
}

/**
 * The face to run the pencil along: the one with fewer nails between the ends, where they would be in its
 * way; the left (upper) one of two alike.
 */
export function chooseTracedFace(pins: readonly SprungPin[]): StripSide {
  const pushes = pins.slice(1, -1).map(({ reaction }) => Math.sign(reaction));
  return pushes.reduce((sum, push) => sum + push, 0) < 0 ? 'right' : 'left';
}

/** No wire nail thicker than this was in the formula's range, mm; thicker ones count as this strong. */
const MAX_FORMULA_DIAMETER_MM = 6;

/**
 * The force a nail bears at half the height of a strip on edge without bending, N: half its yield moment
 * over that lever.
 *
 * Bending yield strength of low-carbon nails: 130.4 − 213.9·D ksi, D in inches, on the plastic section
 * modulus D³/6 (American design practice for nails tested to ASTM F1575; read in lecture notes, not in the
 * standard). A 2.5 mm nail on a strip 20 mm wide: 98 N, about what one hand presses.
 */
export function nailCapacity(diameter: number, width: number): number {
  const inches = Math.min(diameter, MAX_FORMULA_DIAMETER_MM) / MM_PER_INCH;
  const yieldMpa = (130.4 - 213.9 * inches) * 1000 * MPA_PER_PSI;
  const yieldMoment = (yieldMpa * diameter ** 3) / 6;
  return yieldMoment / width;
}
