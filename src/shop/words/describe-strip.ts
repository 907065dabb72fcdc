import type { Point } from '../../curves/geometry/point.ts';
import { type ShowLength, type Warning, warningsThatApply } from '../../units/fault.ts';
import { type LengthFormat, lengthFormat } from '../../units/graduation.ts';
import { showFine, showMagnitude, showPercent, showPercentRange } from '../../units/number-format.ts';
import { type Rule, showLength, showSize } from '../../units/rule.ts';
import { NEWTONS_PER_LBF, type Unit } from '../../units/unit.ts';
import { mostStrained, type RunsAdvice } from '../strip/part-strips.ts';
import type { StripAdvice } from '../strip/strip-advice.ts';
import type { StripNail, StripSide } from '../strip/strip-nails.ts';
import { remainingStrength } from '../wood/grain-runout.ts';
import { speciesInSentence } from '../wood/species.ts';

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

const showStrain = (strain: number): string => showPercent(strain, 2);

const FACE_NAMES: Readonly<Record<StripSide, string>> = { left: 'upper', right: 'lower' };
const SIDE_WORDS: Readonly<Record<StripSide, string>> = { left: 'above', right: 'below' };

/** The batten, how far it is strained, and the thickest that is safe. */
export function describeStrip(advice: StripAdvice, words: LengthFormat): string[] {
  const { exact: length } = words;
  const { species, thickness, width, cutLength, overhang, tapered } = advice;
  const thick = tapered ? `${length(thickness)} thick at the start` : `${length(thickness)} thick`;
  return [
    `${species.name}, ${thick}, ${length(width)} wide, ${length(cutLength)} long: ` +
      `${length(overhang)} or more past the line at each end.`,
    strainWords(advice, length),
    maxThicknessWords(advice, words),
  ];
}

const VERDICTS = { safe: 'safe', risky: 'risky', breaks: 'it breaks' } as const;

function strainWords(
  { strain, worst, safeStrain, breakingStrain, verdict }: StripAdvice,
  mm: ShowLength,
): string {
  return (
    `Strain ${showStrain(strain)} at station ${mm(worst.at.x)}, radius ${mm(worst.radius)}: ${VERDICTS[verdict]}. ` +
    `Safe up to ${showStrain(safeStrain)}; the average clear piece breaks at about ${showStrain(breakingStrain)}.`
  );
}

const NO_STRIP = 'Ease the curve, or trace the printed pattern instead.';

function maxThicknessWords(
  { species, maxThickness, maxThicknessOnRule }: StripAdvice,
  { exact, unit }: LengthFormat,
): string {
  if (maxThicknessOnRule > 0)
    return `Thickest safe strip of ${speciesInSentence(species)}: ${exact(maxThicknessOnRule)}.`;
  return (
    `No strip of ${speciesInSentence(species)} that your rule can measure bends this far safely: it would be ` +
    `${showFine(maxThickness, unit)} thick. ${NO_STRIP}`
  );
}

/** Where each nail stands and what it bears, from start to end. */
export function describeNails(advice: StripAdvice, rule: Rule): string[] {
  const { nails, nailDiameter, traced } = advice;
  if (nails.length === 0) return [];
  const length = (mm: number): string => showLength(mm, rule);
  const at = ({ x, y }: Point): string => `station ${length(x)}, offset ${length(y)}`;
  return [
    `Trace along the ${FACE_NAMES[traced]} face. The middles of ${showSize(nailDiameter, rule)} nails:`,
    ...nails.map((nail) => {
      const places = nail.centers.map(at).join(nail.side === 'either' ? ' or ' : ' and ');
      return `${places}: ${nailWords(nail, rule.unit)}.`;
    }),
  ];
}

function nailWords({ side, force }: StripNail, unit: Unit): string {
  if (side === 'either') return 'bears nothing, on either side of the strip';
  if (side === 'both') return 'a held end, kept between two nails and clamped straight beyond them';
  return `${SIDE_WORDS[side]} the strip, ${showForce(force, unit)}`;
}

export function partStripCautions(runs: RunsAdvice, rule: Rule): Warning[] {
  const all = [mostStrained(runs), ...runs].flatMap(({ advice }) =>
    stripCautions(advice, lengthFormat(rule)),
  );
  return all.filter(({ code }, i) => all.findIndex((other) => other.code === code) === i);
}

/** Grain running out 1 in 10: as steep as a stressed slender part should have it. */
const MAX_RUNOUT = Math.atan(1 / 10);

/** Cautions about what can hurt come first. */
export function stripCautions(advice: StripAdvice, { exact, unit }: LengthFormat): Warning[] {
  const { verdict, thickness, width, maxThicknessOnRule, nails, nailCapacity, tapered } = advice;
  const risk = verdict === 'breaks' ? 'breaks before it reaches this curve' : 'may break, or stay bent';
  const cure = maxThicknessOnRule > 0 ? 'Take a thinner one.' : NO_STRIP;
  const hardest = Math.max(0, ...nails.map(({ force }) => force));
  const left = remainingStrength(MAX_RUNOUT);
  return warningsThatApply([
    [
      verdict !== 'safe',
      `strip.${verdict}`,
      `a strip ${exact(thickness)} thick ${risk}. ${cure} ` +
        'A strip that snaps throws splinters: wear eye protection, and keep your face out of its plane.',
    ],
    [
      hardest > nailCapacity,
      'strip.nails',
      `a nail bears ${showForce(hardest, unit)}; one this thick should bear ${showForce(nailCapacity, unit)} at most. ` +
        'Screw blocks to the board instead, or take a thinner or narrower strip.',
    ],
    [true, 'strip.spring', 'a sprung strip flies when it is let go. Hold it while you draw each nail.'],
    [
      true,
      'strip.grain',
      'the figures are for clear, straight grain. Choose a strip without knots; grain that runs out ' +
        `1 in 10 leaves it about ${showPercentRange(left.least, left.most)} as strong.`,
    ],
    [true, 'strip.creep', 'a batten left sprung stays bent. Draw the line and take it off.'],
    [
      thickness > width,
      'strip.tips',
      'a strip thicker than it is wide bends out of the board. Take a wider one.',
    ],
    [tapered, 'strip.taper', 'a tapered strip slides between its nails, thick end first. Stop that end.'],
  ]);
}
