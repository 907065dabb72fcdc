import type { Box } from '../../src/curves/geometry/bounds.ts';
import { cardPages } from '../../src/export/card/compose-card.ts';
import type { Drawing, Words } from '../../src/export/drawing/drawing.ts';
import { CAP_HEIGHT, textWidth } from '../../src/export/drawing/text-width.ts';
import type { Part } from '../../src/part/part.ts';
import { parsePaper } from '../../src/tiling/paper/paper-sizes.ts';
import { partOf } from '../part/jobs.ts';

/** From the foot of a descender (0.2 of the size, as the font has it) to the capitals' top. */
export const boxOf = (left: number, base: number, width: number, size: number): Box => ({
  left,
  right: left + width,
  bottom: base - 0.2 * size,
  top: base + CAP_HEIGHT * size,
});

const overlapping = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;

/** Pairs of words that lie over each other. */
export const clashes = (words: readonly { readonly text: string; readonly box: Box }[]): string[] =>
  words.flatMap((one, i) =>
    words
      .slice(i + 1)
      .flatMap((other) => (overlapping(one.box, other.box) ? [`${one.text} / ${other.text}`] : [])),
  );

const composedBox = ({ text, at, size, anchor }: Words): Box => {
  const width = textWidth(text, size);
  return boxOf(at.x - { start: 0, middle: width / 2, end: width }[anchor], at.y, width, size);
};

/** All that must hold of any card, before it is written. */
export function faultsOf(part: Part, paper: string): string[] {
  return cardPages(part, { paper: parsePaper(paper) }).flatMap(({ drawing }) => pageFaults(drawing));
}

function pageFaults(drawing: Drawing): string[] {
  const words = drawing.items
    .filter((item) => item.type === 'words')
    .map((item) => ({ text: item.text, size: item.size, box: composedBox(item) }));
  const outside = words.filter(
    ({ box }) =>
      box.left < 5 || box.bottom < 5 || box.right > drawing.width - 5 || box.top > drawing.height - 5,
  );
  return [
    ...outside.map(({ text }) => `outside: ${text}`),
    ...words.filter(({ size }) => size < 3.2).map(({ text, size }) => `${size} mm: ${text}`),
    ...clashes(words),
  ];
}

/** A part with a long name, twelve nails, thirty holes and notes that run on: more than any card holds. */
export function crowdedPart(): Part {
  const nails = Array.from({ length: 12 }, (_, i) => `[${100 * (i + 1)}, ${40 + 12 * Math.sin(i)}]`);
  const holes = Array.from(
    { length: 30 },
    (_, i) => `  - hole: {at: ${20 + 40 * i}, out: 20, diameter: 8, label: dowel}`,
  );
  return partOf(
    'part: Slat rail of the garden arch with a name that runs past the edge of every sheet\nunits: mm\n' +
      'stock: {thickness: 20}\nedges:\n  lower:\n    - from: [0, 0]\n    - line: [1300, 0]\n' +
      `  upper:\n    - from: [0, 40]\n    - spline: [1300, 40]\n      through: [${nails.join(', ')}]\n` +
      `joints:\n${holes.join('\n')}\nnotes: ${'Mind the grain and keep the face side up. '.repeat(12)}\n`,
  );
}
