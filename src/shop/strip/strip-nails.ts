import type { Point } from '../../curves/geometry/point.ts';
import { fromBaseLine } from '../../part/offsets.ts';
import { MM_PER_INCH, MPA_PER_PSI } from '../../units/unit.ts';
import type { SprungLine, SprungPin } from './sprung-line.ts';

/** A side of the batten, going from its start to its end: left is up for a batten along the reference line. */
export type StripSide = 'left' | 'right';

export interface StripNail {
  readonly at: Point;
  readonly force: number;
  /** The side of the nail. `either`: it bears no load. `both`: a held end, which a clamp keeps straight. */
  readonly side: StripSide | 'either' | 'both';
  /** The middle of the nail; for `either` the two to choose from, none for `both`. */
  readonly centers: readonly Point[];
  /** Of a held end: two nails at one station are a pin, and let the strip turn. */
  readonly clamp?: StripClamp;
}

/** Two straight blocks that keep the strip straight from its end on. */
export interface StripClamp {
  readonly to: Point;
  readonly length: number;
  readonly moment: number;
}

/** Of the batten at its start: thickness (mm) and stiffness (N·mm²). */
export interface NailingOptions {
  readonly thickness: number;
  readonly stiffness: number;
  readonly diameter: number;
  readonly traced: StripSide;
  readonly overhang: number;
}

/** A reaction under this share of the greatest is rounding: the nail bears nothing. */
const UNLOADED_SHARE = 1e-9;

/**
 * Nails on the traced face are half a diameter off the line, the others the thickness more. The batten's middle is
 * taken for its face, which strays by under 1/1000 of the rise over one nail for any safe batten up to a third of its
 * chord high (1/600 with the nail within a tenth of an end).
 */
export function placeNails({ pins, ends }: SprungLine, nailing: NailingOptions): readonly StripNail[] {
  // A batten's curve does not depend on its stiffness; its forces are in proportion.
  const forceOn = ({ reaction }: SprungPin): number => nailing.stiffness * reaction;
  const idle = UNLOADED_SHARE * Math.max(...pins.map((pin) => Math.abs(forceOn(pin))));
  return pins.map((pin, i) => {
    const force = forceOn(pin);
    if ((i === 0 && ends[0] === 'held') || (i === pins.length - 1 && ends[1] === 'held'))
      return heldEnd(pin, Math.abs(force), i === 0 ? -1 : 1, nailing);
    const side = Math.abs(force) <= idle ? 'either' : force > 0 ? 'right' : 'left';
    const sides: readonly StripSide[] = side === 'either' ? ['left', 'right'] : [side];
    const centers = sides.map((each) => nailCenter(each, pin, nailing));
    return { at: pin.at, force: Math.abs(force), side, centers };
  });
}

function heldEnd(pin: SprungPin, force: number, away: 1 | -1, nailing: NailingOptions): StripNail {
  const { at, angle, curvature } = pin;
  const { overhang: length, stiffness } = nailing;
  const to = fromBaseLine({ x: away * length, y: 0 }, { origin: at, angle });
  const clamp = { to, length, moment: stiffness * Math.abs(curvature) };
  return { at, force, side: 'both', centers: [], clamp };
}

function nailCenter(side: StripSide, { at, angle, share }: SprungPin, nailing: NailingOptions): Point {
  const { thickness, diameter, traced } = nailing;
  const off = diameter / 2 + (side === traced ? 0 : thickness * share);
  return fromBaseLine({ x: 0, y: side === 'left' ? off : -off }, { origin: at, angle });
}

/** The face with fewer nails in the pencil's way; the left (upper) one of two alike. */
export function chooseTracedFace(pins: readonly SprungPin[]): StripSide {
  const pushes = pins.slice(1, -1).map(({ reaction }) => Math.sign(reaction));
  return pushes.reduce((sum, push) => sum + push, 0) < 0 ? 'right' : 'left';
}

/** The formula is known up to this diameter, mm; a thicker nail counts as this strong. */
const MAX_FORMULA_DIAMETER_MM = 6;

/**
 * Half the yield moment over half the batten's height, N. Bending yield strength of low-carbon nails: 130.4 − 213.9·D
 * ksi, D in inches, on D³/6 (American practice for nails tested to ASTM F1575; read in lecture notes, not in the
 * standard). A 2.5 mm nail on a batten 20 mm wide: 98 N, about what one hand presses.
 */
export function nailCapacity(diameter: number, width: number): number {
  const inches = Math.min(diameter, MAX_FORMULA_DIAMETER_MM) / MM_PER_INCH;
  const yieldMpa = (130.4 - 213.9 * inches) * 1000 * MPA_PER_PSI;
  const yieldMoment = (yieldMpa * diameter ** 3) / 6;
  return yieldMoment / width;
}
