import { Fault } from '../../units/fault.ts';
import { floorToGraduation, graduationMm } from '../../units/graduation.ts';
import type { Rule } from '../../units/rule.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import type { StrainVerdict } from '../wood/bending.ts';
import { fiberStrain, maxSafeThickness, safeStrain, strainVerdict } from '../wood/bending.ts';
import type { Species } from '../wood/species.ts';

/**
 * The share of curvature that n equal plies lose off the form, 1/n²: the whole is n³ times as stiff as a ply and
 * straightens under n moments. Beam theory for elastic wood and glue, and common practice among boat builders; a trial
 * piece shows how real ones differ.
 */
export function lostShare(plies: number): number {
  assertPlies(plies);
  return 1 / plies ** 2;
}

/** How much sharper than the line the form must be, so that the line is left: n²/(n² − 1). */
export const formFactor = (plies: number): number => 1 / (1 - lostShare(plies));

function assertPlies(plies: number): void {
  if (Number.isInteger(plies) && plies >= 2 && plies <= MAX_PLIES) return;
  const one = 'one ply alone springs back straight. Use 2 or more.';
  const none = `${plies} is not a number of plies. Use a whole number from 2 to ${MAX_PLIES}.`;
  throw new Fault('lamination.plies', plies === 1 ? one : none);
}

/** Half a meter of veneers; more is a mistake. */
const MAX_PLIES = 1000;

/** Soaked or damp, from one how-to page for makers: radius 2 to 4 in, ply 3/32; to 8, 1/8; to 12, 3/16; over, 1/4. */
const PLY_CHART: readonly (readonly [upTo: number, ply: number])[] = [
  [4, 3 / 32],
  [8, 1 / 8],
  [12, 3 / 16],
  [Number.POSITIVE_INFINITY, 1 / 4],
];

/** The chart's ply for a radius, mm; undefined under 2 in, where the chart has no row. */
export function chartPly(radius: number): number | undefined {
  if (radius < 2 * MM_PER_INCH) return undefined;
  const row = PLY_CHART.find(([upTo]) => radius <= upTo * MM_PER_INCH);
  return row && row[1] * MM_PER_INCH;
}

export interface LaminationOptions {
  readonly species: Species;
  readonly rule: Rule;
  /** The line's sharpest bend where the plies lie round the form, 1/mm; 0 where they do nowhere. */
  readonly curvature: number;
  /** The same where they lie in its hollow. */
  readonly hollow?: number;
  /** How much sharper than the line the form is, by a trial piece; computed where absent. */
  readonly factor?: number;
  /** Of all plies together, mm; given alone, the plies are counted. `plies` alone makes each as thick as is safe. */
  readonly thickness?: number;
  readonly plies?: number;
}

/** How many plies, how thick, and how they bend. */
export interface Lamination {
  /** 2 or more, all alike. */
  readonly plies: number;
  /** Of each, mm. */
  readonly plyThickness: number;
  /** Of all together, mm. */
  readonly thickness: number;
  /** How much sharper than the part its form is. */
  readonly factor: number;
  /** Where that comes from. */
  readonly springbackFrom: 'beam theory' | 'trial piece';
  /** The least that a ply takes on the form, mm: in a hollow that of the last ply. */
  readonly tightestRadius: number;
  /** Of a ply's faces there. */
  readonly strain: number;
  /** Half of what breaks the wood’s average clear piece. */
  readonly safeStrain: number;
  /** Whether a ply bends to the form safely. */
  readonly verdict: StrainVerdict;
  /** The thickest that is safe on this form, mm. */
  readonly safePly: number;
  /** What a makers' chart gives for soaked plies, mm; absent under a radius of 2 in. */
  readonly chartPly?: number;
}

/**
 * Safe at the tightest radius that a ply takes.
 * @throws Fault `lamination.size`, `lamination.plies`, `lamination.too-tight`, `lamination.no-room`
 */
export function laminate(ask: LaminationOptions): Lamination {
  const { species } = ask;
  const plies = ask.plies ?? fewestSafePlies(ask);
  const thickness = ask.thickness ?? plies * thickestPly(ask, plies);
  const plyThickness = thickness / plies;
  const tightestRadius = tightestRadiusOf(ask, plies, thickness);
  if (tightestRadius <= 0) throw noRoom(ask, thickness);
  const strain = fiberStrain(plyThickness, 1 / tightestRadius);
  const chart = chartPly(tightestRadius);
  const springbackFrom = ask.factor === undefined ? ('beam theory' as const) : ('trial piece' as const);
  const form = { factor: ask.factor ?? formFactor(plies), springbackFrom };
  const bent = { plies, plyThickness, thickness, ...form, tightestRadius, strain };
  const judged = { safeStrain: safeStrain(species), verdict: strainVerdict(strain, species) };
  const safePly = maxSafeThickness(1 / tightestRadius, species);
  return { ...bent, ...judged, safePly, ...(chart !== undefined && { chartPly: chart }) };
}

/** The form's where the plies lie round it; in its hollow the last ply's, which lies in all the others. */
function tightestRadiusOf(ask: LaminationOptions, plies: number, thickness: number) {
  const { curvature, hollow = 0, factor = formFactor(plies) } = ask;
  return Math.min(1 / (curvature * factor), 1 / (hollow * factor) - thickness);
}

/** On the rule. In a hollow of radius R it is t = 2ε(R − nt), solved for t. */
function thickestPly(ask: LaminationOptions, plies: number): number {
  const { species, curvature, hollow = 0, rule, factor = formFactor(plies) } = ask;
  const bend = factor * Math.max(curvature, hollow + 2 * safeStrain(species) * plies * hollow);
  return Math.max(floorToGraduation(maxSafeThickness(bend, species), rule), graduationMm(rule));
}

const noRoom = ({ hollow = 0 }: LaminationOptions, thickness: number): Fault =>
  new Fault(
    'lamination.no-room',
    (mm) =>
      `a lamination ${mm(thickness)} thick does not fit into a hollow of radius ${mm(1 / hollow)}. Make it thinner, or put the form on the other side.`,
  );

function fewestSafePlies(ask: LaminationOptions): number {
  const { species, curvature, hollow = 0, thickness } = ask;
  const needed =
    'a lamination needs its thickness or its number of plies. Give --thickness, --plies or both.';
  if (thickness === undefined) throw new Fault('lamination.size', needed);
  if (hollow * thickness >= 1) throw noRoom(ask, thickness);
  for (let plies = 2; plies <= MAX_PLIES; plies++)
    if (thickness / plies <= 2 * safeStrain(species) * tightestRadiusOf(ask, plies, thickness)) return plies;
  throw new Fault(
    'lamination.too-tight',
    (mm) =>
      `a lamination ${mm(thickness)} thick needs more than ${MAX_PLIES} plies at a radius of ${mm(1 / Math.max(curvature, hollow))}. Make it thinner, or ease the curve.`,
  );
}
