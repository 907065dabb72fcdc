import type { Part } from '../../part/part.ts';
import { showSizes } from '../../units/graduation.ts';
import { joinList, present } from '../../units/lists.ts';
import {
  capitalize,
  degrees,
  showAngle,
  showCount,
  showPercent,
  trimmed,
} from '../../units/number-format.ts';
import { type Rule, readOnRule, showLength, showNearest } from '../../units/rule.ts';
import type { NestingFigures } from '../nesting/nesting-layouts.ts';
import type { LayerChoice, LumberThickness } from '../stock/lumber-thicknesses.ts';
import type { GrainAdvice, StockPlan, WoodPlan, WoodVolume } from '../stock/stock-plan.ts';
import { grainOnPart, worstRunout } from '../wood/grain-runout.ts';
import { speciesInSentence } from '../wood/species.ts';
import { showMass } from './describe-support.ts';
import { type SafetyNote, safetyNote } from './safety.ts';

/** The blank, and whether the job's stock is large enough. */
export function describeBlank({ stock, rule, shape }: Part, { blank, footprint }: StockPlan): string[] {
  const { length, width, thickness, allowances } = blank;
  const extra = present(
    `${showLength(allowances.length, rule)} of length`,
    `${showLength(allowances.width, rule)} of width`,
    thickness !== undefined && `${showLength(allowances.thickness, rule)} to plane`,
  );
  const given = [stock?.length, stock?.width];
  const short = (stock?.length ?? length) < length || (stock?.width ?? width) < width;
  return present(
    `the part covers ${showSizes([footprint.length, footprint.width], rule)}${shape.type === 'closed' ? ', with its saw line and long points' : '. It has one edge, so leave the wood beside it'}`,
    `cut the blank to ${showSizes([length, width, thickness], rule)}. It allows ${joinList(extra, ' and ')}`,
    given.some((size) => size !== undefined) &&
      `your stock, ${showSizes(given, rule)}, ${short ? 'is too small' : 'is large enough'}`,
    thickness === undefined && 'For layers and weight, write "thickness: 7/8" under "stock"',
  );
}

/** One row for each number of boards glued up. */
export function layerRows(layers: readonly LayerChoice[], rule: Rule): string[][] {
  return [
    ['layers', 'rough', 'each planed to', 'planed away'],
    ...layers.map(({ count, lumber, each, waste }) => [
      String(count),
      roughName(lumber, rule),
      showLength(each, rule),
      showPercent(waste),
    ]),
  ];
}

/** "5/4 (1 1/4\")": a name that is a size needs none beside it. */
const roughName = ({ name, rough }: LumberThickness, rule: Rule): string =>
  name.endsWith('"') || name.endsWith('mm') ? name : `${name} (${showLength(rough, rule)})`;

/** "1.5 board feet", "0.0036 m³": as a yard of the maker's unit sells it. */
export const showVolume = ({ boardFeet, cubicMetres }: WoodVolume, { unit }: Rule, digits: number): string =>
  unit === 'in' ? `${boardFeet.toFixed(digits)} board feet` : `${cubicMetres.toFixed(4)} m³`;

/** Volume and weight, of one and of all. */
export function describeAmount({ quantity, stock, rule }: Part, { amount, layers }: StockPlan): string[] {
  if (!amount) return [];
  const { rough, weight } = amount;
  const [first] = layers ?? [];
  return present(
    `a blank contains ${showVolume(amount, rule, 2)}`,
    rough &&
      first &&
      `buy for ${showCount(quantity, 'part')}, in ${first.count > 1 ? `${first.count} layers of ` : ''}${first.lumber.name}: ` +
        `${showVolume(rough, rule, 1)}. Add the waste that the yard’s boards leave`,
    weight
      ? `a finished part weighs about ${showMass(weight.part, rule.unit)}, its rough blank ${showMass(weight.blank, rule.unit)} (${speciesInSentence(weight.species)})`
      : `weight unknown: ${stock?.species === undefined ? 'the job does not name the species' : `fairlath has no figures for "${stock.species}"`}`,
  );
}

export const ARRANGEMENT_WORDS: Readonly<Record<NestingFigures['way'], string>> = {
  rectangles: 'as rectangles',
  same: 'all the same way',
  turned: 'every other copy turned end for end',
  over: 'every other copy flipped lengthwise',
  'over-end': 'every other copy flipped end for end',
  'by-hand': 'mirrored parts apart, every other copy turned end for end',
};

/** A head and a row for each arrangement, the best one starred; none where nothing is laid out. */
export function nestingRows({ nesting }: StockPlan, rule: Rule): string[][] {
  if (!nesting) return [];
  return [
    [`* closest of ${nesting.tried} layouts`, 'pitch', 'on one board: across × along', 'boards', 'used'],
    ...[nesting.rectangles, ...nesting.ways].map((laid) => [
      `${ARRANGEMENT_WORDS[laid.way]}${laid.way === nesting.way ? ' *' : ''}`,
      laid.interlocked ? '–' : readOnRule(laid.pitch, rule).text,
      laid.interlocked ? String(laid.perBoard) : `${laid.perBoard}: ${laid.across} × ${laid.along}`,
      String(laid.boards),
      showPercent(laid.yield),
    ]),
  ];
}

/** Runout in degrees. The grades follow the strength that Hankinson's formula leaves. */
const RUNOUT_GRADES: readonly { upTo: number; grade: string; words: string }[] = [
  { upTo: 6, grade: 'good', words: 'good: about as strong as straight-grained wood' },
  { upTo: 11, grade: 'caution', words: 'moderate: choose straight wood there, and keep knots away' },
  {
    upTo: 20,
    grade: 'weak',
    words: 'weak: choose wood whose grain follows the curve, or rotate the pattern',
  },
];
const SHORT_GRAIN = {
  grade: 'short',
  words: 'short grain: redesign the part, laminate it, bend it or build it up',
};

export const runoutGrade = ({
  worst,
}: Pick<GrainAdvice, 'worst'>): { readonly grade: string; readonly words: string } =>
  RUNOUT_GRADES.find(({ upTo }) => degrees(worst.angle) <= upTo) ?? SHORT_GRAIN;

const runoutWords = ({ worst }: Pick<GrainAdvice, 'worst'>, rule: Rule): string =>
  `runout ${showAngle(worst.angle)} at worst, on "${worst.edge}" at station ${showLength(worst.at.x, rule)}. ${capitalize(runoutGrade({ worst }).words)}`;

/** A line for paper where grain along the reference line leaves little strength: over the caution band. */
export function weakGrainWords(part: Part): string | undefined {
  // The grain of plies follows the curve.
  if (part.laminate) return undefined;
  const worst = worstRunout(part, grainOnPart(part));
  const isWeak = !['good', 'caution'].includes(runoutGrade({ worst }).grade);
  return isWeak ? `grain ${runoutWords({ worst }, part.rule)}` : undefined;
}

/** Runout, the strength left, the weakest section, and a better turn of the pattern. */
export function describeGrain({ grain }: WoodPlan, rule: Rule): string[] {
  const { strength, section, tenons, better } = grain;
  const at = (mm: number): string => showLength(mm, rule);
  return present(
    runoutWords(grain, rule),
    `about ${showPercent(strength.least)} of the bending strength remains there (Hankinson’s formula)`,
    section &&
      `weakest section: ${at(section.height)} across at station ${at(section.at.x)}${section.weakened ? ', less its joint' : ''}. ` +
        `It has ${showPercent(section.share)} of the bending strength of the straight blank`,
    ...tenons.map(
      ({ side, width }) =>
        `${side} tenon, ${at(width)} across: its strength depends on the joint and is not given here`,
    ),
    better &&
      `rotated ${showAngle(better.turn)} (--grain ${trimmed(degrees(better.turn), 1)}), the runout would be ${showAngle(better.angle)} at worst, ` +
        `on a blank ${showNearest(better.width, rule)} wide`,
  );
}

export const STOCK_CAUTIONS: readonly SafetyNote[] = [
  safetyNote('stock.guidance'),
  safetyNote('stock.measure'),
];
