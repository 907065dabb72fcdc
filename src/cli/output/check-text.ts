import type { Deviation, EdgeCheck, StationVerdict } from '../../check/check-edge.ts';
import type { PairCheck } from '../../check/compare-pair.ts';
import { deviationSide } from '../../check/deviation-side.ts';
import { maxReadingError } from '../../check/readings/reading-error.ts';
import { MIN_ALIGNMENT_READINGS } from '../../check/suspect-readings.ts';
import type { Part } from '../../part/part.ts';
import { degrees, showFine, showFixed, trueMinus } from '../../units/number-format.ts';
import { type Rule, readOnRule, showLength, showOnRule } from '../../units/rule.ts';
import { textTable, UNIT_WORDS } from './print-answer.ts';

/** On a sawn part. A bent part shows by how much it is high or low. */
const MARK_TEXT: Readonly<Record<StationVerdict, string>> = {
  true: '',
  high: '<- proud: remove wood',
  shy: '<- inside the saw line',
  lost: '<- too little wood left',
};

/** The check as text: each reading, the worst one, the best fit (of no use where a bent part has opened), the verdict. */
export function checkText(part: Part, check: EdgeCheck, beforeSanding: boolean, hasOpened = false): string {
  const { rule } = part;
  const line = beforeSanding ? 'the saw line' : 'the finished line';
  const show = deviationText(part, check);
  const rows = check.readings.map((each) => rowOf(each, part, show, beforeSanding));
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
    [
      worstText(check, show, rule),
      ...(hasOpened ? [] : fitText(check, show, rule)),
      ...apexText(check, rule),
    ].join('\n'),
    verdictText(check, rule),
  ].join('\n\n');
}

function rowOf(
  each: Deviation,
  { rule, sawAllowance, laminate }: Part,
  show: ShowDeviation,
  beforeSanding: boolean,
): string[] {
  const left = each.proud + sawAllowance;
  const toFinish = beforeSanding ? [left > 0 ? showOnRule(left, rule) : 'nothing'] : [];
  return [
    `  ${showOnRule(each.station, rule)}`,
    showOnRule(each.design, rule),
    showOnRule(each.measured, rule),
    show(each.proud),
    showExact(Math.abs(each.square), rule),
    ...toFinish,
    laminate ? '' : MARK_TEXT[each.verdict],
  ];
}

const showExact = (mm: number, { unit }: Rule): string => showFixed(mm, unit, { in: 2, mm: 1 });

type ShowDeviation = (proud: number) => string;

/** "1/16 proud": more wood than asked for; "1/16 shy": less. On a bent part "1/16 high" or "1/16 low". */
const deviationText =
  (part: Part, { line }: Pick<EdgeCheck, 'line'>, none = 'on the line'): ShowDeviation =>
  (proud) => {
    const { mark, text } = readOnRule(Math.abs(proud), part.rule);
    return mark === 0 ? none : `${text} ${deviationSide(part, line, proud)}`;
  };

const deviationAtText = (
  { station, proud }: Pick<Deviation, 'station' | 'proud'>,
  show: ShowDeviation,
  rule: Rule,
): string => `${show(proud)} at station ${showOnRule(station, rule)}`;

function worstText({ readings, worst, rms }: EdgeCheck, show: ShowDeviation, rule: Rule): string {
  const at = readings.reduce((a, b) => (Math.abs(b.square) > Math.abs(a.square) ? b : a));
  return `worst     ${deviationAtText(at, show, rule)} (${showExact(worst, rule)}); typical ${showExact(rms, rule)}`;
}

function fitText({ bestFit, endDeviations, readings }: EdgeCheck, show: ShowDeviation, rule: Rule): string[] {
  const few = MIN_ALIGNMENT_READINGS;
  if (readings.length < few)
    return [`setup     at least ${few} readings are needed to tell a crooked setup from a sawing error`];
  const { turn, worst, rms } = bestFit;
  // Rounding must not show −0.00°.
  const turned = degrees(turn).toFixed(2).replace('-0.00', '0.00');
  const isOn = endDeviations.every(({ proud }) => readOnRule(Math.abs(proud), rule).mark === 0);
  const ends = isOn
    ? 'on the line at both ends'
    : endDeviations.map((end) => deviationAtText(end, show, rule)).join(' and ');
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
  if (verdict === 'outside') {
    const out = readings.filter(({ square }) => Math.abs(square) > tolerance + error).length;
    const counted = `tolerance ${showLength(tolerance, rule)}, and ${showFine(error, rule.unit)} for reading the rule`;
    return `outside: ${out} of ${readings.length} stations ${out === 1 ? 'has' : 'have'} an error of more than ${showFine(tolerance + error, rule.unit)} (${counted})`;
  }
  const sure = worst + error <= tolerance ? '' : ', as far as your rule can show';
  return `within ${showLength(tolerance, rule)}${sure} (half a graduation is allowed for reading the rule)`;
}

/** The differences between the two parts of a pair, station by station, and as a whole. */
export function pairText({ readings, worst, rms }: PairCheck, part: Part, check: EdgeCheck): string {
  const { rule } = part;
  const show = deviationText(part, check, 'the same');
  const rows = readings.map(({ station, difference }) => [
    `  ${showOnRule(station, rule)}`,
    show(difference),
    showExact(Math.abs(difference), rule),
  ]);
  return [
    'second part of the pair, compared with the first:',
    textTable([['  station', 'difference', ''], ...rows]),
    `largest difference ${showExact(worst, rule)}, typical ${showExact(rms, rule)}`,
  ].join('\n');
}
