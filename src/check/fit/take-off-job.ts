import type { Curve } from '../../curves/curve.ts';
import { angleFrom, type Point } from '../../curves/geometry/point.ts';
import { apexOf } from '../../curves/measurements.ts';
import { toBaseLine } from '../../part/offsets.ts';
import { neighbors } from '../../units/checked.ts';
import { graduationMm } from '../../units/graduation.ts';
import { present } from '../../units/lists.ts';
import { capitalize, inUnit, showTwoFigures, trimmed } from '../../units/number-format.ts';
import { type Rule, readOnRule, showLength, showNearest } from '../../units/rule.ts';
import type { Steps } from './curve-families.ts';
import type { KindFit } from './fit-curve-kinds.ts';
import { indistinguishableKinds, type TakeOff } from './take-off.ts';

/** 0.01 mm: a tenth of what a hand can set out. */
const MM_DECIMALS = 2;

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
  const written = writingRule(best.curves, rule);
  const { numerator, denominator } = rule.graduation;
  return [
    `# Taken off a part, measured at ${readings.length} stations. ${capitalize(kindWords(best))} fits the readings best.`,
    ...takeOffRemarks(taken, rule).map((line) => `# ${line}`),
    `part: ${JSON.stringify(name)}`,
    `units: ${unit}`,
    `graduation: ${numerator}${denominator === 1 ? '' : `/${denominator}`}   # finest mark of the rule that was used`,
    '',
    'edges:',
    '  curve:                      # change the name as you like; a second edge makes a closed part',
    `    - from: ${pointText(best.curves[0].from, written)}`,
    ...best.curves.flatMap((curve) =>
      stepLines(curve, best.ends, written).map((line, i) => `    ${i === 0 ? '- ' : '  '}${line}`),
    ),
    '',
    '# allowance:',
    `#   saw: ${unit === 'in' ? '1/16' : '1.5'}                   # saw this far outside the finished line`,
    '',
  ].join('\n');
}

/** One line for the fit of each kind and for each reading that is left out. */
export function takeOffRemarks(taken: TakeOff, rule: Rule): string[] {
  const { kinds, outliers, sigma } = taken;
  const about = (mm: number): string => showTwoFigures(mm, rule.unit);
  const alike = indistinguishableKinds(taken).map(kindWords);
  return present(
    `Assumed error of one reading: ${about(sigma)} (standard deviation), from the marks of the rule and the hand.`,
    ...kinds.map(
      (each) => `${kindWords(each)}: readings off by ${about(each.rms)} rms, ${about(each.worst)} at worst`,
    ),
    alike.length > 0 &&
      `${capitalize(alike.join(' or '))} fits nearly as well. If you know which curve was used, choose that one.`,
    ...outliers.map(
      ({ at, off }) =>
        `station ${showLength(at.x, rule)}: reads ${showNearest(Math.abs(off), rule)} ${off > 0 ? 'more' : 'less'} than the others suggest, so it was left out. Measure it again.`,
    ),
  );
}

/** "A straight part, then a batten over one nail, held at its left end". */
export function kindWords({ kind, curves, ends }: KindFit): string {
  const held = { left: ends?.[0] === 'held', right: ends?.[1] === 'held' };
  const where = held.left && held.right ? 'both ends' : `its ${held.left ? 'left' : 'right'} end`;
  const curve = `${KIND_WITH_ARTICLE[kind]}${held.left || held.right ? `, held at ${where}` : ''}`;
  return curves.map((each) => (each.kind === kind ? curve : 'a straight part')).join(', then ');
}

/** Inches where a rule shows too little: a tenth of what a hand can set out. */
const THOUSANDTHS: Rule['graduation'] = { numerator: 1, denominator: 1000 };

/** The rule that was read, or a finer one where that would lose a rise or lay two points on one station. */
function writingRule(curves: Steps, rule: Rule): Rule {
  const least = graduationMm(rule);
  const isLost = (curve: Curve): boolean =>
    neighbors(curvePoints(curve)).some(([a, b]) => b.x - a.x < least) ||
    (isRisen(curve) && Math.abs(riseOf(curve)) < least);
  return curves.some(isLost) ? { ...rule, graduation: THOUSANDTHS } : rule;
}

const isRisen = ({ kind }: Curve): boolean => kind === 'arc' || kind === 'bow' || kind === 'ellipse';

export const settingPoints = (curves: Steps): Point[] =>
  curves.flatMap((curve, i) => curvePoints(curve).slice(i === 0 ? 0 : 1));

function curvePoints(curve: Curve): Point[] {
  const { kind, from, to, pins } = curve;
  if (kind === 'batten' || kind === 'spline') return [...pins];
  const apex = apexOf(curve.exact, from, to);
  return apex ? [from, apex.at, to] : [from, to];
}

function stepLines(curve: Curve, ends: KindFit['ends'], rule: Rule): string[] {
  const { kind, to, pins } = curve;
  const first = `${kind}: ${pointText(to, rule)}`;
  const nails = pins.slice(1, -1).map((pin) => pointText(pin, rule));
  switch (kind) {
    case 'arc':
    case 'bow':
    case 'ellipse':
      return [first, `rise: ${lengthText(riseOf(curve), rule)}`];
    case 'batten': {
      const held = ends?.includes('held') ? [`ends: [${ends.join(', ')}]`] : [];
      return [
        first,
        `through: ${nails[0]}     # the nail; the apex is elsewhere, see "fairlath show"`,
        ...held,
      ];
    }
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

const pointText = ({ x, y }: Point, rule: Rule): string => `[${lengthText(x, rule)}, ${lengthText(y, rule)}]`;

const lengthText = (mm: number, rule: Rule): string =>
  rule.unit === 'in' ? readOnRule(mm, rule).text : trimmed(inUnit(mm, 'mm'), MM_DECIMALS);
