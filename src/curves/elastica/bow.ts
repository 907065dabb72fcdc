import { Fault } from '../../units/fault.ts';
import { type Curve, makeCurve } from '../curve.ts';
import type { ElasticaSegment, Piece } from '../geometry/pieces/piece.ts';
import { angleFrom, distance, type Point } from '../geometry/point.ts';
import { JOIN_MM } from '../geometry/tolerance.ts';
import { ellipticIntegrals } from '../numeric/elliptic-integrals.ts';
import { rootBetween } from '../numeric/roots-and-minima.ts';
import { assertDistinct } from '../validate.ts';

/** The modulus at which the ends of the bow touch (2E = K, at 130.71° to the string). Below it every rise has a bow. */
const ENDS_TOUCH = 0.9089085575485414;

/** The greatest rise per chord. Far above it the chord is the difference of two large numbers and loses its digits. */
const MAX_RISE = 100;

/**
 * A uniform strip whose pinned ends a string draws together, to 1e-12 of its length; a positive rise bulges to the
 * left. With k = sin(half the end angle) rise/chord = k/(2E − K), and the string's force is (2K/length)² (Timoshenko &
 * Gere, "Theory of Elastic Stability", 2nd ed., §2.7).
 * @throws Fault `curve.same-point`, `curve.not-finite`, `bow.ends-touch`
 */
export function bow(from: Point, to: Point, rise: number): Curve {
  assertDistinct(from, to, 'the two ends of the bow');
  if (!Number.isFinite(rise))
    throw new Fault('curve.not-finite', 'the rise of the bow is not a finite number. Use a plain length.');
  return makeCurve({ kind: 'bow', from, to, pins: [from, to], exact: [bowPiece(from, to, rise)] });
}

function bowPiece(from: Point, to: Point, rise: number): Piece {
  const chord = distance(from, to);
  if (Math.abs(rise) < JOIN_MM) return { type: 'line', from, to };
  if (Math.abs(rise) > MAX_RISE * chord)
    throw new Fault(
      'bow.ends-touch',
      (mm) =>
        `a bow with a rise of ${mm(Math.abs(rise))} on a chord of ${mm(chord)} closes to a loop. ` +
        `Use a rise of ${mm(MAX_RISE * chord)} or less, or a longer chord.`,
    );
  return bowElastica(from, to, Math.sign(rise), bowModulus(Math.abs(rise) / chord));
}

const complementOf = (k: number): number => Math.sqrt((1 - k) * (1 + k));

/** k for a rise per chord: the one root of k = rise·(2E − K)/chord. */
function bowModulus(risePerChord: number): number {
  const off = (k: number): number => {
    const { K, E } = ellipticIntegrals(complementOf(k));
    return k - risePerChord * (2 * E - K);
  };
  return rootBetween(off, 0, ENDS_TOUCH) ?? ENDS_TOUCH;
}

function bowElastica(from: Point, to: Point, side: number, k: number): ElasticaSegment {
  const complement = complementOf(k);
  const { K, E } = ellipticIntegrals(complement);
  const root = (2 * (2 * E - K)) / distance(from, to);
  const force = root ** 2;
  return {
    type: 'elastica',
    from,
    angle: angleFrom(from, to) + side * 2 * Math.asin(k),
    curvature: 0,
    curvatureRate: -side * force * 2 * k * complement,
    thrust: force * (1 - 2 * k * k),
    length: (2 * K) / root,
  };
}
