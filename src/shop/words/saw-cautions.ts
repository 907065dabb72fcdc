import { isSquare } from '../../part/ends/end-planes.ts';
import type { Part } from '../../part/part.ts';
import { type Warning, warningsThatApply } from '../../units/fault.ts';
import type { LengthFormat } from '../../units/graduation.ts';
import type { Sawing } from '../saw/advise-sawing.ts';

/** A clamp or a sled holds a shorter part, not a hand: 12 in. Common practice. */
const SHORT_PART_MM = 305;

/** What to heed at the saw for this part; what can hurt comes first. */
export function sawCautions(
  part: Part,
  { edges, height }: Pick<Sawing, 'edges' | 'height'>,
  words: LengthFormat,
): Warning[] {
  const { unit, exact } = words;
  const thickness = part.stock?.thickness;
  const curves = edges.some(({ pieces }) => pieces.some(({ type }) => type !== 'line'));
  const both = (inch: string, mm: string): string => (unit === 'in' ? inch : mm);
  return warningsThatApply([
    [
      thickness !== undefined && thickness > height,
      'saw.too-high',
      `the part is ${exact(thickness ?? 0)} thick and ${exact(height)} go under the guide. Saw it in layers, or with a bow saw.`,
    ],
    [
      true,
      'saw.fingers',
      `keep fingers ${both('4"', '100 mm')} from the blade and out of its line; push the last of the cut with a block.`,
    ],
    [
      true,
      'saw.guide',
      `set the upper guide within ${both('1/2"', '12 mm')} of the wood, and cover all of the blade but what saws (as 29 CFR 1910.213(i) asks of employers).`,
    ],
    [
      curves,
      'saw.back-out',
      'do not back out of a long curve with the saw running, nor twist the blade: stop it, or saw out through the waste.',
    ],
    [
      part.ends?.some((end) => !isSquare(end)) ?? false,
      'saw.leaning',
      'a leaning cut creeps along the gauge: clamp the part to it, a stop on the kept side only, the offcut free to fall.',
    ],
    [
      part.bounds.right - part.bounds.left < SHORT_PART_MM,
      'saw.short',
      'the part is short: clamp it to a sled or a larger board rather than hold it by hand.',
    ],
    [true, 'saw.wear', 'protect eyes, ears and lungs; let the blade stop before you clear away offcuts.'],
    [
      true,
      'saw.manual',
      'the saw’s own manual and the rules of your place come before anything said here. Unplug it to change or tilt the blade.',
    ],
  ]);
}
