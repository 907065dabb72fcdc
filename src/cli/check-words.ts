import type { Check, Deviation, Mark } from '../check/check-edge.ts';
import type { PairCheck } from '../check/pair.ts';
import { mostReadingError } from '../check/reading-error.ts';
import type { Part } from '../part/part.ts';
import { type Rule, readOnRule, showLength, showOnRule } from '../units/rule.ts';
import { degrees } from './json.ts';
import { columns } from './table.ts';

const MARKS: Readonly<Record<Mark, string>> = {
  true: '',
  high: '<- high: take it down',
  shy: '<- inside the saw line',
  lost: '<- hollow: past saving',
};

/** The comparison in words, in the job's unit, with what to do about it. */
export function checkText(part: Part, check: Check, beforeSanding: boolean): string {
  const { rule } = part;
  const line = beforeSanding ? 'the saw line' : 'the finished line';
  const rows = check.readings.map((each) => rowOf(each, part, beforeSanding));
  const head = ['  station', 'line', 'measured', 'off', '', ...(beforeSanding ? ['to finish'] : []), ''];
  return [
    `${part.name}, ${check.edge}: measured against ${line}, ${rule.unit}`,
    columns([head, ...rows]),
    [...worstWords(check, rule), ...fitWords(check, rule), ...apexWords(check, rule)].join('\n'),
    verdictWords(check, rule),
  ].join('\n\n');
}

function rowOf(each: Deviation, { rule, sawAllowance }: Part, beforeSanding: boolean): string[] {
  const left = each.proud + sawAllowance;
  const toFinish = beforeSanding ? [left > 0 ? showOnRule(left, rule) : 'nothing'] : [];
  return [
    `  ${showOnRule(each.station, rule)}`,
    showOnRule(each.design, rule),
    showOnRule(each.measured, rule),
    offWords(each.proud, rule),
    `${(Math.abs(each.deviation) + 0).toFixed(1)} mm`,
    ...toFinish,
    MARKS[each.mark],
  ];
}

/** "1/16 proud": more wood than asked for; "1/16 shy": less. */
function offWords(proud: number, rule: Rule, none = 'on the line'): string {
  const { mark, text } = readOnRule(Math.abs(proud), rule);
  return mark === 0 ? none : `${text} ${proud > 0 ? 'proud' : 'shy'}`;
}

function worstWords({ readings, worst, rms }: Check, rule: Rule): string[] {
  const at = readings.reduce((a, b) => (Math.abs(b.deviation) > Math.abs(a.deviation) ? b : a));
  const where = `${offWords(at.proud, rule)} at station ${showOnRule(at.station, rule)}`;
  return [`worst     ${where} (${worst.toFixed(1)} mm); rms ${rms.toFixed(1)} mm`];
}

function fitWords({ bestFit, lies, readings }: Check, rule: Rule): string[] {
  if (readings.length < TELLS_CROOKED)
    return [`as set    fewer than ${TELLS_CROOKED} readings do not tell a crooked part from one sawn wrong`];
  const { turn, worst, rms } = bestFit;
  const ends = lies.map(
    ({ station, proud }) => `${offWords(proud, rule)} at station ${showOnRule(station, rule)}`,
  );
  return [
    `as set    the part lies ${ends.join(' and ')}, turned ${degrees(turn).toFixed(2)}°`,
    `straight  set true to the rule, ${worst.toFixed(1)} mm off at worst; rms ${rms.toFixed(1)} mm`,
  ];
}

const apexWords = ({ apexes }: Check, rule: Rule): string[] =>
  apexes.map(({ asked, measured }) => {
    const place = ({ at, rise }: typeof asked): string =>
      `station ${showOnRule(at.x, rule)}, rise ${showOnRule(rise, rule)}`;
    return `apex      ${place(measured)}; asked for ${place(asked)}`;
  });

function verdictWords({ verdict, tolerance, worst, readings }: Check, rule: Rule): string {
  const error = mostReadingError(rule);
  const counted = 'half a graduation counted for reading the rule';
  const limit = showLength(tolerance, rule);
  if (verdict === 'outside') {
    const out = readings.filter(({ deviation }) => Math.abs(deviation) > tolerance + error).length;
    return `outside: ${out} of ${readings.length} stations are off by more than ${limit} (${counted})`;
  }
  const sure = worst + error <= tolerance ? '' : ', as far as this rule can tell';
  return `within ${limit}${sure} (${counted})`;
}

/** Shift and turn lie well on any two readings; a third and a fourth can speak against them. */
const TELLS_CROOKED = 4;

/**
 * Set straight, a crooked part keeps at most this share of its rms: shift and turn then explain three quarters of
 * the squares, in four readings or more. One place sawn wrong draws the best fit towards it, too, but keeps most.
 */
const KEPT_WHEN_STRAIGHT = 0.5;

/** The part within once it is set straight: crooked against the rule, not sawn wrong. */
export const isSetCrooked = ({ verdict, bestFit, tolerance, readings, rms }: Check, rule: Rule): boolean =>
  verdict === 'outside' &&
  readings.length >= TELLS_CROOKED &&
  bestFit.worst <= tolerance + mostReadingError(rule) &&
  bestFit.rms <= KEPT_WHEN_STRAIGHT * rms;

export function pairText({ readings, worst, rms }: PairCheck, rule: Rule): string {
  const rows = readings.map(({ station, difference }) => [
    `  ${showOnRule(station, rule)}`,
    offWords(difference, rule, 'alike'),
    `${Math.abs(difference).toFixed(1)} mm`,
  ]);
  return [
    'the second of the pair against the first:',
    columns([['  station', 'off', ''], ...rows]),
    `worst ${worst.toFixed(1)} mm; rms ${rms.toFixed(1)} mm`,
  ].join('\n');
}
