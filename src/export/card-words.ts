import type { Part } from '../part/part.ts';
import type { Wording } from '../shop/say-blade.ts';
import { type Rule, readOnRule } from '../units/rule.ts';
import { typesetFractions } from '../units/typeset.ts';
import type { Filling } from './card-sections.ts';
import { BODY_MM, paragraph } from './columns.ts';
import { printed } from './setting-out.ts';
import { wrapText } from './type.ts';

/** Lengths in sentences, as they are printed. */
export const wordingOf = (rule: Rule): Wording => ({
  length: (mm) => printed(mm, rule),
  about: (mm) => about(mm, rule),
  unit: rule.unit,
});

/** To the nearest mark, with its unit: nobody cuts a blank or sets a stand to a hair. */
export const about = (mm: number, rule: Rule): string => `${bareAbout(mm, rule)} ${rule.unit}`;

export const bareAbout = (mm: number, rule: Rule): string => typesetFractions(readOnRule(mm, rule).text);

/** As a sentence of its own, its fractions set. */
export const sentence = (text: string): string =>
  typesetFractions(text.charAt(0).toUpperCase() + text.slice(1));

/** Sentences from all of them down to the first few, the rest told where to find. */
export function shortening(
  sentences: readonly string[],
  width: number,
  least: number,
  more: string,
): readonly Filling[] {
  const counts = Array.from(
    { length: Math.max(1, sentences.length - least + 1) },
    (_, i) => sentences.length - i,
  );
  return counts.map((count) => {
    const kept = [...sentences.slice(0, count), ...(count < sentences.length ? [more] : [])];
    return { rows: kept.flatMap((text) => paragraph(text, width)), list: kept };
  });
}

/** How many lines a sentence takes. */
export const linesOf = (text: string, width: number): number => wrapText(text, BODY_MM, width).length;

/** "make 4, 2 of them mirrored". */
export const quantityOf = ({ quantity, job }: Part): string =>
  job.pair === 'mirrored' && quantity > 1
    ? `make ${quantity}, ${quantity / 2} of them mirrored`
    : `make ${quantity}`;
