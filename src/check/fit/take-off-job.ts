import type { Curve } from '../../curves/curve.ts';
import { angleFrom, type Point } from '../../curves/geometry/point.ts';
import { apexOf } from '../../curves/measurements.ts';
import { toBaseLine } from '../../part/offsets.ts';
import { showNearest } from '../../units/graduation.ts';
import { present } from '../../units/lists.ts';
import { capitalize, inUnit, showTwoFigures, trimmed } from '../../units/number-format.ts';
import { type Rule, showLength } from '../../units/rule.ts';
import type { Unit } from '../../units/unit.ts';
import { indistinguishableKinds, type TakeOff } from './take-off.ts';

/** 0.025 mm and 0.01 mm: a tenth of what a hand can set out. */
const DECIMALS: Readonly<Record<Unit, number>> = { in: 3, mm: 2 };

const KIND_WITH_ARTICLE = {
  line: 'a straight line',
  arc: 'an arc',
  bow: 'a bow',
  ellipse: 'half an ellipse',
  batten: 'a batten over one nail',
  spline: 'a spline',
} as const;

/** A job file with the best fit, and remarks on how it was found. */
export function writeTakeOffJob(taken: TakeOff, name: string, rule: Rule): string {
  const { kinds, readings } = taken;
  const [best] = kinds;
  const { unit } = rule;
  const { numerator, denominator } = rule.graduation;
  return [
    `# Taken off a part: the fair curve through ${readings.length} stations. ${capitalize(KIND_WITH_ARTICLE[best.kind])} lies best on them.`,
    ...takeOffRemarks(taken, rule).map((line) => `# ${line}`),
    `part: ${JSON.stringify(name)}`,
    `units: ${unit}`,
    `graduation: ${numerator}${denominator === 1 ? '' : `/${denominator}`}   # of the rule it was measured with`,
    '',
    'edges:',
    '  curve:                      # name it as you like; a second edge makes a closed part',
    `    - from: ${pointText(best.curve.from, unit)}`,
    ...stepLines(best.curve, unit).map((line, i) => `    ${i === 0 ? '- ' : '  '}${line}`),
    '',
    '# allowance:',
    `#   saw: ${unit === 'in' ? '1/16' : '1.5'}                   # to saw outside the line`,
    '',
  ].join('\n');
}

/** One line for the fit of each kind and for each reading that is left out. */
export function takeOffRemarks(taken: TakeOff, rule: Rule): string[] {
  const { kinds, outliers, sigma } = taken;
  const about = (mm: number): string => showTwoFigures(mm, rule.unit);
  const cannotTell = indistinguishableKinds(taken).map(({ kind }) => KIND_WITH_ARTICLE[kind]);
  return present(
    `One reading is taken to err by ${about(sigma)} (standard deviation): the rule’s rounding and the hand.`,
    ...kinds.map(
      ({ kind, rms, worst }) =>
        `${KIND_WITH_ARTICLE[kind]}: readings off by ${about(rms)} rms, ${about(worst)} at worst`,
    ),
    cannotTell.length > 0 &&
      `The readings cannot tell it from ${cannotTell.join(' or ')}. Take the one that was used, if you know.`,
    ...outliers.map(
      ({ at, off }) =>
        `station ${showLength(at.x, rule)}: reads ${showNearest(Math.abs(off), rule)} ${off > 0 ? 'more' : 'less'} than its neighbours say, left out; measure it again`,
    ),
  );
}

/** The points that set a curve: its ends, and its nails, pins or apex between them. */
export function settingPoints(curve: Curve): Point[] {
  const { kind, from, to, pins } = curve;
  if (kind === 'batten' || kind === 'spline') return [...pins];
  const apex = apexOf(curve.exact, from, to);
  return apex ? [from, apex.at, to] : [from, to];
}

function stepLines(curve: Curve, unit: Unit): string[] {
  const { kind, to, pins } = curve;
  const first = `${kind}: ${pointText(to, unit)}`;
  const nails = pins.slice(1, -1).map((pin) => pointText(pin, unit));
  switch (kind) {
    case 'arc':
    case 'bow':
    case 'ellipse':
      return [first, `rise: ${lengthText(riseOf(curve), unit)}`];
    case 'batten':
      return [first, `through: ${nails[0]}     # the nail; the apex falls elsewhere, see fairlath show`];
    case 'spline':
      return [first, `through: [${nails.join(', ')}]`, 'ends: natural'];
    default:
      return [first];
  }
}

/** Positive to the left of the chord: away from the reference line. */
function riseOf({ exact, from, to }: Curve): number {
  const apex = apexOf(exact, from, to);
  return apex ? toBaseLine(apex.at, { origin: from, angle: angleFrom(from, to) }).y : 0;
}

const pointText = ({ x, y }: Point, unit: Unit): string => `[${lengthText(x, unit)}, ${lengthText(y, unit)}]`;

const lengthText = (mm: number, unit: Unit): string => trimmed(inUnit(mm, unit), DECIMALS[unit]);
