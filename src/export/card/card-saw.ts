import { isSquare } from '../../part/ends/end-planes.ts';
import type { Part } from '../../part/part.ts';
import type { Sawing } from '../../shop/saw/advise-sawing.ts';
import { type BladeAdvice, everyBladeTurns } from '../../shop/saw/blade-advice.ts';
import { BLADES, bladeName } from '../../shop/saw/blades.ts';
import type { EndCut } from '../../shop/saw/saw-depth.ts';
import { cutAngleWords } from '../../shop/words/cut-angle-words.ts';
import { cutOrder } from '../../shop/words/cut-order.ts';
import { describeBlade } from '../../shop/words/describe-blade.ts';
import { describeEnd } from '../../shop/words/describe-ends.ts';
import { typesetAngle } from '../../units/number-format.ts';
import { typesetFractions } from '../../units/typeset.ts';
import { reachWords } from '../cover/end-words.ts';
import { numberedSteps, paragraph } from '../cover/text-columns.ts';
import { lengthWithoutUnit, printedLength } from '../drawing/dimensions.ts';
import { about, printedLengthWords, sentence } from './card-words.ts';
import type { CardSection, SectionVariant } from './fit-sections.ts';
import { settingRows } from './setting-rows.ts';

/** Something to set on a machine, and the words that go with it. */
interface MachineSetting {
  readonly what: string;
  readonly value: string;
  readonly notes: readonly string[];
  /** How many of the notes are never left out. */
  readonly requiredNotes: number;
}

/** What saw and gauge are set to: the ends' angles, the blade, the line to saw to. */
export function sawSection(part: Part, sawing: Sawing, width: number): CardSection {
  const full = [...endSettings(part, sawing), bladeSetting(part, sawing.blade)];
  const short = full.map((one) => ({ ...one, notes: one.notes.slice(0, 1 + one.requiredNotes) }));
  const bare = full.map((one) => ({ ...one, notes: one.notes.slice(0, one.requiredNotes) }));
  const filling = (settings: readonly MachineSetting[]): SectionVariant => ({
    rows: settings.flatMap(({ what, value, notes }) => settingRows(what, value, notes, width)),
    list: settings.map(({ what, value, notes }) => ({ what, value, notes })),
  });
  return {
    name: 'saw',
    title: 'Saw',
    priority: 3,
    variants: [filling(full), filling(short), filling(bare)],
    sufficientVariant: 2,
  };
}

/** Both ends in one where they are set alike. */
function endSettings(part: Part, { ends, tableSaw }: Sawing): MachineSetting[] {
  const settings = ends.map((cut): MachineSetting & { readonly side: string } => ({
    side: cut.end.side,
    what: `${cut.end.side} end`,
    value: cutAngleWords(cut.end.angles, typesetAngle),
    notes: endNotes(part, cut, tableSaw),
    requiredNotes: 0,
  }));
  const [left, right] = settings;
  if (!left || !right || left.value !== right.value) return settings;
  const same = isSquare(ends[0]!.end);
  return [
    {
      what: 'both ends',
      value: left.value,
      notes: same ? left.notes : [...left.notes.slice(0, 1), ...right.notes],
      requiredNotes: 0,
    },
  ];
}

function endNotes({ rule, stock }: Part, cut: EndCut, saw: Sawing['tableSaw']): string[] {
  const { end } = cut;
  // Its title and its points are told in fewer words here.
  const depth = describeEnd(cut, stock?.thickness, saw, printedLengthWords(rule)).slice(
    isSquare(end) ? 1 : 2,
  );
  const points = isSquare(end)
    ? []
    : [`${end.side}: ${reachWords(end, (mm) => lengthWithoutUnit(mm, rule))}.`];
  return [...points, ...depth].map(sentence);
}

function bladeSetting({ rule, sawAllowance }: Part, blade: BladeAdvice): MachineSetting {
  const outside =
    sawAllowance > 0
      ? `Saw ${printedLength(sawAllowance, rule)} outside, to the dashed line.`
      : 'There is no saw line: saw just outside the finished one.';
  const bends = describeBlade(blade, printedLengthWords(rule)).filter((words) => !words.endsWith('none'));
  return {
    what: 'band saw',
    value: bladeValue(blade, (mm) => about(mm, rule), rule.unit),
    notes: [outside, ...bends.map(sentence)],
    requiredNotes: 1,
  };
}

function bladeValue(blade: BladeAdvice, length: (mm: number) => string, unit: Part['rule']['unit']): string {
  if (everyBladeTurns(blade)) return 'any blade';
  if (!blade.widest)
    return `no blade: even ${typesetFractions(bladeName(BLADES[0]!.width, unit, length))} is too wide`;
  return `${typesetFractions(bladeName(blade.widest.width, unit, length))} or narrower`;
}

/** So many steps will do while others are short of words. */
const SUFFICIENT_STEPS = 4;

/** What is cut first, and what after it. */
export function cutOrderSection(part: Part, { edges, blade, support }: Sawing, width: number): CardSection {
  const order = cutOrder(part, edges, blade, support, printedLengthWords(part.rule)).map(sentence);
  const counts = Array.from({ length: order.length }, (_, i) => order.length - i);
  const [first, ...more] = counts.map((count): SectionVariant => {
    const list = order.slice(0, count);
    const rest = count < order.length ? paragraph('The steps after these: fairlath saw.', width) : [];
    return { rows: [...numberedSteps(list, width), ...rest], list };
  });
  return {
    name: 'order',
    title: 'Order of cuts',
    priority: 6,
    variants: [first!, ...more],
    sufficientVariant: Math.max(0, order.length - SUFFICIENT_STEPS),
  };
}
