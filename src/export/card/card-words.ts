import type { Part } from '../../part/part.ts';
import { type LengthFormat, showNearest } from '../../units/graduation.ts';
import { capitalize } from '../../units/number-format.ts';
import type { Rule } from '../../units/rule.ts';
import { typesetFractions } from '../../units/typeset.ts';
import { printedLength } from '../drawing/dimensions.ts';

export const printedLengthWords = (rule: Rule): LengthFormat => ({
  exact: (mm) => printedLength(mm, rule),
  rounded: (mm) => about(mm, rule),
  unit: rule.unit,
});

/** To the nearest mark, with its unit: nobody cuts a blank or sets a stand to a hair. */
export const about = (mm: number, rule: Rule): string => typesetFractions(showNearest(mm, rule));

/** As a sentence of its own, its fractions set. */
export const sentence = (text: string): string => typesetFractions(capitalize(text));

export const quantityWords = ({ quantity, pair }: Part): string =>
  pair === 'mirrored' && quantity > 1
    ? `make ${quantity}, ${quantity / 2} of them mirrored`
    : `make ${quantity}`;
