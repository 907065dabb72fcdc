import type { Deviation, EdgeCheck, StationVerdict } from '../../check/check-edge.ts';
import type { PairCheck } from '../../check/compare-pair.ts';
import { maxReadingError } from '../../check/readings/reading-error.ts';
import { MIN_ALIGNMENT_READINGS } from '../../check/suspect-readings.ts';
import type { Part } from '../../part/part.ts';
import { degrees, showFine, showFixed, trueMinus } from '../../units/number-format.ts';
import { type Rule, readOnRule, showLength, showOnRule } from '../../units/rule.ts';
import { textTable, UNIT_WORDS } from './print-answer.ts';

const MARK_TEXT: Readonly<Record<StationVerdict, string>> = {
  true: '',
  high: '<- proud: remove wood',
  shy: '<- inside the saw line',
  lost: '<- too little wood left',
};

/** The check as text: each reading, the worst reading, the best fit and the verdict. */
export function checkText(part: Part, check: EdgeCheck, beforeSanding: boolean): string {
  const { rule } = part;
  const line = beforeSanding ? 'the saw line' : 'the finished line';
  const rows = check.readings.map((each) => rowOf(each, part, beforeSanding));
  const head = [
    '  station',
    'should be',
    'measured',
    'error',
    '',
    ...(beforeSanding ? ['to finish'] : []),
    '',
  ];
  return [
    `${part.name}, ${check.edge}: compared with ${line}, in ${UNIT_WORDS[rule.unit]}`,
    textTable([head, ...rows]),
    [worstText(check, rule), ...fitText(check, rule), ...apexText(check, rule)].join('\n'),
    verdictText(check, rule),
  ].join('\n\n');
}

function rowOf(each: Deviation, { rule, sawAllowance }: Part, beforeSanding: boolean): string[] {
  const left = each.proud + sawAllowance;
  const toFinish = beforeSanding ? [left > 0 ? showOnRule(left, rule) : 'nothing'] : [];
  return [
    `  ${showOnRule(each.station, rule)}`,
    showOnRule(each.design, rule),
    showOnRule(each.measured, rule),
    deviationText(each.proud, rule),
    showExact(Math.abs(each.square), rule),
    ...toFinish,
    MARK_TEXT[each.verdict],
  ];
}

const showExact = (mm: number, { unit }: Rule): string => showFixed(mm, unit, { in: 2, mm: 1 });

/** "1/16 proud": more wood than asked for; "1/16 shy": less. */
function deviationText(proud: number, rule: Rule, none = 'on the line'): string {
  const { mark, text } = readOnRule(Math.abs(proud), rule);
  return mark === 0 ? none : `${text} ${proud > 0 ? 'proud' : 'shy'}`;
}

const deviationAtText = ({ station, proud }: Pick<Deviation, 'station' | 'proud'>, rule: Rule): string =>
  `${deviationText(proud, rule)} at station ${showOnRule(station, rule)}`;

function worstText({ readings, worst, rms }: EdgeCheck, rule: Rule): string {
  const at = readings.reduce((a, b) => (Math.abs(b.square) > Math.abs(a.square) ? b : a));
  return `worst     ${deviationAtText(at, rule)} (${showExact(worst, rule)}); typical ${showExact(rms, rule)}`;
}

function fitText({ bestFit, endDeviations, readings }: EdgeCheck, rule: Rule): string[] {
  const few = MIN_ALIGNMENT_READINGS;
  if (readings.length < few)
    return [`setup     at least ${few} readings are needed to tell a crooked setup from a sawing error`];
  const { turn, worst, rms } = bestFit;
  // Rounding must not show −0.00°.
  const turned = degrees(turn).toFixed(2).replace('-0.00', '0.00');
  const isOn = endDeviations.every(({ proud }) => readOnRule(Math.abs(proud), rule).mark === 0);
  const ends = isOn
    ? 'on the line at both ends'
    : endDeviations.map((end) => deviationAtText(end, rule)).join(' and ');
  return [
    `setup     your setup is ${ends}, rotated ${trueMinus(turned)}°`,
    `sawing    without the setup error: largest ${showExact(worst, rule)}, typical ${showExact(rms, rule)}`,
  ];
}

const apexText = ({ apexes }: EdgeCheck, rule: Rule): string[] =>
  apexes.map(({ design, measured }) => {
    const place = ({ at, rise }: typeof design): string =>
      `station ${showOnRule(at.x, rule)}, rise ${showOnRule(rise, rule)}`;
    return `apex      ${place(measured)}; should be at ${place(design)}`;
  });

function verdictText({ verdict, tolerance, worst, readings }: EdgeCheck, rule: Rule): string {
  const error = maxReadingError(rule);
  const counted = `tolerance ${showLength(tolerance, rule)}, and ${showFine(error, rule.unit)} for reading the rule`;
  const limit = showFine(tolerance + error, rule.unit);
  if (verdict === 'outside') {
    const out = readings.filter(({ square }) => Math.abs(square) > tolerance + error).length;
    return `outside: ${out} of ${readings.length} stations ${out === 1 ? 'has' : 'have'} an error of more than ${limit} (${counted})`;
  }
  const sure = worst + error <= tolerance ? '' : ', as far as your rule can show';
  return `within ${limit}${sure} (${counted})`;
}

/** The differences between the two parts of a pair, station by station, and as a whole. */
export function pairText({ readings, worst, rms }: PairCheck, rule: Rule): string {
  const rows = readings.map(({ station, difference }) => [
    `  ${showOnRule(station, rule)}`,
    deviationText(difference, rule, 'the same'),
    showExact(Math.abs(difference), rule),
  ]);
  return [
    'second part of the pair, compared with the first:',
    textTable([['  station', 'difference', ''], ...rows]),
    `largest difference ${showExact(worst, rule)}, typical ${showExact(rms, rule)}`,
  ].join('\n');
}
