import type { Point } from '../../curves/geometry/point.ts';
import type { ShowLength } from '../../units/fault.ts';
import { type LengthFormat, lengthFormat } from '../../units/graduation.ts';
import { present } from '../../units/lists.ts';
import { showFine, showMagnitude, showPercent } from '../../units/number-format.ts';
import { type Rule, readOnRule, showLength, showSize } from '../../units/rule.ts';
import { MM_PER_INCH, NEWTONS_PER_LBF, type Unit } from '../../units/unit.ts';
import type { OtherStrip } from '../strip/other-strips.ts';
import { mostStrained, type RunsAdvice } from '../strip/part-strips.ts';
import type { StripAdvice } from '../strip/strip-advice.ts';
import type { StripNail, StripSide } from '../strip/strip-nails.ts';
import { remainingStrength } from '../wood/grain-runout.ts';
import { speciesInSentence } from '../wood/species.ts';
import { type SafetyNote, safetyNote, safetyWords } from './safety.ts';

/** What the maker's own scales show; a kilogram-force is by standard gravity. */
const SCALE_FORCE = {
  mm: { name: 'kgf', newtons: 9.80665 },
  in: { name: 'lbf', newtons: NEWTONS_PER_LBF },
} as const;

/** "13.3 N (1.4 kgf)". */
export function showForce(newtons: number, unit: Unit): string {
  const felt = SCALE_FORCE[unit];
  return `${showMagnitude(newtons, 10)} N (${showMagnitude(newtons / felt.newtons, 10)} ${felt.name})`;
}

/** "0.36 N·m (3.2 lbf·in)". */
const showMoment = (newtonMm: number): string =>
  `${showMagnitude(newtonMm / 1000, 10)} N·m (${showMagnitude(newtonMm / NEWTONS_PER_LBF / MM_PER_INCH, 10)} lbf·in)`;

const showStrain = (strain: number): string => showPercent(strain, 2);

const FACE_NAMES: Readonly<Record<StripSide, string>> = { left: 'far', right: 'near' };
/** The far side is away from the reference line. */
export const SIDE_WORDS: Readonly<Record<StripNail['side'], string>> = {
  left: 'far side',
  right: 'near side',
  either: 'either side',
  both: 'held: clamp',
};

/** The batten, how far it is strained, and the thickest that is safe; or what takes the bend instead of wood. */
export function describeStrip(advice: StripAdvice, words: LengthFormat): string[] {
  const { exact: length } = words;
  if (advice.others) return describeOthers(advice, advice.others, words);
  const { species, thickness, width, cutLength, overhang, tapered } = advice;
  const thick = tapered ? `${length(thickness)} thick at the start` : `${length(thickness)} thick`;
  return [
    `${species.name}, ${thick}, ${length(width)} wide, ${length(cutLength)} long. ` +
      `Leave ${length(overhang)} or more past the curve at each end.`,
    strainWords(advice, length),
    `Thickest safe batten of ${speciesInSentence(species)}: ${advice.maxThicknessOnRule > 0 ? length(advice.maxThicknessOnRule) : showFine(advice.maxThickness, words.unit)}.`,
  ];
}

function describeOthers(advice: StripAdvice, others: readonly OtherStrip[], { exact, unit }: LengthFormat) {
  const { species, worst, maxThickness, minThickness, width, cutLength } = advice;
  const thick = others.map((one) => `${one.material} up to ${showFine(one.maxThickness, unit)} thick`);
  return [
    `No batten of ${speciesInSentence(species)} can take the bend at station ${exact(worst.at.x)}, radius ${exact(worst.radius)}. ` +
      `It is safe up to ${showFine(maxThickness, unit)} thick, but ${exact(minThickness)} is about the thinnest that you can make.`,
    others.length > 0
      ? `Use ${thick.join(' or ')}, ${exact(width)} wide, ${exact(cutLength)} long. This limit is common practice, so try the bend first.`
      : NO_STRIP,
  ];
}

const VERDICTS = { safe: 'safe', risky: 'risky', breaks: 'the batten breaks' } as const;

function strainWords(
  { strain, worst, safeStrain, breakingStrain, verdict }: StripAdvice,
  mm: ShowLength,
): string {
  return (
    `Strain ${showStrain(strain)} at station ${mm(worst.at.x)}, radius ${mm(worst.radius)}: ${VERDICTS[verdict]}. ` +
    `The limit is ${showStrain(safeStrain)}. An average clear piece breaks at about ${showStrain(breakingStrain)}.`
  );
}

const NO_STRIP = 'Ease the curve, or trace the printed pattern instead.';

const FACE_SIDE: Readonly<Record<StripSide, string>> = {
  left: 'away from the reference line',
  right: 'toward the reference line',
};

/** "Trace along the far side of the batten, away from the reference line.". */
export const traceWords = (traced: StripSide): string =>
  `Trace along the ${FACE_NAMES[traced]} side of the batten, ${FACE_SIDE[traced]}.`;

/** The place of each nail and the force on it, from start to end. */
export function describeNails(advice: StripAdvice, rule: Rule): string[] {
  const { nails, nailDiameter, traced } = advice;
  if (nails.length === 0 || advice.others) return [];
  return [
    `${traceWords(traced)} Centers of the ${showSize(nailDiameter, rule)} nails:`,
    ...nails.map((nail) => nailWords(nail, rule)),
  ];
}

/** A rule sets out no middle that is nearer to 0 than half a graduation: the nail goes on the line. */
const placeWords = ({ x, y }: Point, rule: Rule): string => {
  const set = (mm: number, line: string): string => {
    const { mark, hair } = readOnRule(mm, rule);
    return mark === 0 && hair ? `0 (on ${line})` : showLength(mm, rule);
  };
  return `station ${set(x, 'its mark')}, offset ${set(y, 'the reference line')}`;
};

function nailWords({ side, force, at, centers, clamp }: StripNail, rule: Rule): string {
  const pushes = showForce(force, rule.unit);
  if (clamp)
    return (
      `${placeWords(at, rule)}: a held end. Clamp the batten straight between two blocks from here to ` +
      `${placeWords(clamp.to, rule)}, ${showLength(clamp.length, rule)} long. The clamp carries ${showMoment(clamp.moment)} and ${pushes}.`
    );
  const places = centers.map((center) => placeWords(center, rule)).join(' or ');
  if (side === 'left' || side === 'right') return `${places}: on the ${SIDE_WORDS[side]}, ${pushes}.`;
  return `${places}: on either side of the batten, no load.`;
}

export function partStripCautions(runs: RunsAdvice, rule: Rule): SafetyNote[] {
  const all = [mostStrained(runs), ...runs].flatMap(({ advice }) =>
    stripCautions(advice, lengthFormat(rule)),
  );
  return all.filter(({ code }, i) => all.findIndex((other) => other.code === code) === i);
}

/** Grain running out 1 in 10: as steep as a stressed slender part should have it. */
const MAX_RUNOUT = Math.atan(1 / 10);

/** Thickness and width nearer than this are the same: less than any rule or caliper shows, mm. */
const SAME_SIZE_MM = 0.01;

/** What can hurt comes first. */
export function stripCautions(advice: StripAdvice, { exact, unit }: LengthFormat): SafetyNote[] {
  const { verdict, thickness, width, others, nails, nailCapacity, tapered } = advice;
  const risk = verdict === 'breaks' ? 'breaks before it reaches this curve' : 'may break or stay bent';
  const hardest = Math.max(0, ...nails.map(({ force }) => force));
  const left = showPercent(remainingStrength(MAX_RUNOUT).least);
  const grain = safetyNote('strip.grain', unit);
  return present<SafetyNote>(
    others !== undefined &&
      found(
        'strip.no-wood',
        'No batten of this wood can take the bend. Use another material, or trace the printed pattern.',
        safetyWords('batten-splinters'),
      ),
    verdict !== 'safe' &&
      !others &&
      found(
        `strip.${verdict}`,
        `A batten ${exact(thickness)} thick ${risk}. Use a thinner batten.`,
        safetyWords('batten-splinters'),
      ),
    hardest > nailCapacity &&
      !others &&
      found(
        'strip.nails',
        `A nail carries ${showForce(hardest, unit)}. A nail of this size holds ${showForce(nailCapacity, unit)} at most.`,
        'Screw blocks to the board instead, or use a thinner or narrower batten.',
      ),
    safetyNote('strip.spring'),
    !others && {
      ...grain,
      message: `${grain.message} A runout of 1 in 10 leaves about ${left} of the strength.`,
    },
    nails.length > 0 && !others && safetyNote('strip.friction'),
    safetyNote('strip.creep'),
    thickness > width - SAME_SIZE_MM && safetyNote('strip.tips'),
    tapered && safetyNote('strip.taper'),
  );
}

const found = (code: string, ...sentences: readonly string[]): SafetyNote => ({
  code,
  level: 'warning',
  message: sentences.join(' '),
});
