import { isSquare } from '../../part/ends/end-planes.ts';
import type { Part } from '../../part/part.ts';
import type { Sawing } from '../../shop/saw/advise-sawing.ts';
import { type BladeAdvice, everyBladeTurns } from '../../shop/saw/blade-advice.ts';
import { BLADES, bladeName } from '../../shop/saw/blades.ts';
import type { EndCut } from '../../shop/saw/saw-depth.ts';
import { cutOrder } from '../../shop/words/cut-order.ts';
import { describeBlade } from '../../shop/words/describe-blade.ts';
import { cutAngleWords, describeEndCut, longAtWords } from '../../shop/words/describe-ends.ts';
import { firstOf } from '../../units/checked.ts';
import type { LengthFormat } from '../../units/graduation.ts';
import { showAngle } from '../../units/number-format.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { numberedSteps } from '../cover/text-columns.ts';
import { printedLengthWords, sentence } from '../drawing/dimensions.ts';
import type { CardSection, SectionVariant } from './fit-sections.ts';
import { settingRows } from './setting-rows.ts';

/** What the saw and the miter gauge are set to; width in mm. */
export function sawSection(part: Part, sawing: Sawing, width: number): CardSection {
  const settings = [...endSettings(part, sawing), bladeSetting(part, sawing.blade)];
  const variants = [Number.POSITIVE_INFINITY, 1, 0].map((extraNotes): SectionVariant => {
    const list = settings.map(({ what, value, notes: all, requiredNotes }) => {
      const notes = all.slice(0, requiredNotes + extraNotes);
      return { what, value, notes };
    });
    return { rows: list.flatMap(({ what, value, notes }) => settingRows(what, value, notes, width)), list };
  });
  return { name: 'saw', title: 'Saw', priority: 3, variants, sufficientVariant: 2 };
}

/** Both ends in one where they are set alike: each is then long where the other is short. */
function endSettings(part: Part, sawing: Sawing) {
  const settings = sawing.ends.map((cut) => ({
    what: typesetMeasures(`${cut.end.side} end${isSquare(cut.end) ? '' : `, ${longAtWords(cut.end, part)}`}`),
    value: cutAngleWords(cut.end, showAngle),
    notes: endNotes(part, cut, sawing),
    requiredNotes: 0,
    cut,
  }));
  const [left, right] = settings;
  if (!left || !right || left.value !== right.value) return settings;
  const both = { ...left, what: 'both ends' };
  if (isSquare(left.cut.end)) return [both];
  const lean = sentence(`${left.what}; right: opposite.`);
  return [{ ...both, notes: [lean, ...right.notes], requiredNotes: 1 }];
}

function endNotes(part: Part, cut: EndCut, sawing: Sawing): string[] {
  const cutting = describeEndCut(part, cut, sawing, printedLengthWords(part.rule)).map(
    ({ label, words }) => `${label}: ${words}`,
  );
  // The pattern shows the long and the short point.
  return cutting.map(sentence);
}

function bladeSetting({ rule, sawAllowance }: Part, blade: BladeAdvice) {
  const wording = printedLengthWords(rule);
  const none = 'The pattern has no saw line. Saw just outside the finished line.';
  const outside =
    sawAllowance > 0
      ? `Saw along the dashed saw line, ${wording.exact(sawAllowance)} outside the finished line.`
      : none;
  const bends = describeBlade(blade, wording).filter((words) => !words.endsWith('none'));
  const notes = [outside, ...bends.map(sentence)];
  // The saw line is named even where the page is full.
  return { what: 'band saw', value: bladeValue(blade, wording), notes, requiredNotes: 1 };
}

function bladeValue(blade: BladeAdvice, { unit, rounded }: LengthFormat): string {
  if (everyBladeTurns(blade)) return 'any blade';
  const { width } = blade.widest ?? firstOf(BLADES);
  const name = typesetMeasures(bladeName(width, unit, rounded));
  return blade.widest ? `${name} or narrower` : `none: even ${name} is too wide`;
}

/** What is cut first, and what after it, every step; width in mm. */
export function cutOrderSection(part: Part, sawing: Sawing, width: number): CardSection {
  const list = cutOrder(part, sawing, printedLengthWords(part.rule)).map(sentence);
  return {
    name: 'order',
    title: 'Order of cuts',
    priority: 6,
    variants: [{ rows: numberedSteps(list, width), list }],
  };
}
