import { expect, test } from 'vitest';
import { flatten, segmentIntersectsBox } from '../../../src/curves/geometry/flatten.ts';
import { patternCover } from '../../../src/export/cover/cover-page.ts';
import { dimensionsOf } from '../../../src/export/drawing/dimensions.ts';
import type { Drawing } from '../../../src/export/drawing/drawing.ts';
import { textWidth } from '../../../src/export/drawing/text-width.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { type LayOutOptions, layOut } from '../../../src/tiling/tile.ts';
import { partOf, samplePart } from '../../part/jobs.ts';
import { archTop } from '../../tiling/parts.ts';
import { boxOf, clashes, crowdedPart } from '../card-faults.ts';

const longNames = () =>
  partOf(
    'part: Tylna noga ławki przedpokojowej z bardzo długą nazwą, wygięta, dębowa\n' +
      'units: mm\nstock: {species: white oak, thickness: 40}\nallowance: {saw: 2}\nedges:\n' +
      '  zewnętrzna krawędź odniesienia:\n    - from: [0, 0]\n    - line: [900, 0]\n' +
      '  wewnętrzna krawędź gięta:\n    - from: [0, 60]\n    - batten: [900, 60]\n      through: [400, 90]\n',
  );

const PARTS = [
  ['many joints', crowdedPart, {}],
  ['long names', longNames, {}],
  [
    'a printer’s scale',
    () => samplePart('hall-bench-leg.yaml'),
    { printer: { name: 'shop', across: 0.997, down: 1.003 } },
  ],
  ['a rotated layout', () => samplePart('hall-bench-leg.yaml'), { turn: 33 }],
  ['two rows', archTop, {}],
  ['a steep part', () => samplePart('wall-shelf-bracket.yaml'), {}],
  ['a leg that stands', () => samplePart('hall-bench/leg.yaml'), {}],
  ['mitered ends', () => samplePart('hall-bench/apron.yaml'), {}],
] as const;

/** A word's box reaches this far past its letters, mm. */
const BOX_SLACK_MM = 0.3;

function faultsOn({ items, width }: Drawing): string[] {
  const all = items.flatMap((item) => {
    if (item.type !== 'words') return [];
    const { text, at, size, anchor } = item;
    const wide = textWidth(text, size);
    return [{ text, box: boxOf(at.x - { start: 0, middle: wide / 2, end: wide }[anchor], at.y, wide, size) }];
  });
  const lines = items.flatMap((item) => (item.type === 'stroke' ? flatten(item.path) : []));
  const onLine = all.filter(({ box }) => {
    const { left, right, bottom, top } = box;
    const letters = { left: left + 0.1, right: right - 0.1, bottom: bottom + BOX_SLACK_MM, top: top - 0.1 };
    return lines.some((line) => segmentIntersectsBox(line, letters));
  });
  const outside = all.filter(({ box }) => box.left < 12.5 || box.right > width - 12.5 || box.bottom < 11);
  return [
    ...clashes(all),
    ...onLine.map(({ text }) => `on a line: ${text}`),
    ...outside.map(({ text }) => `outside: ${text}`),
  ];
}

test.each(PARTS)('the cover of %s has no word on a line, on a word or outside', (_, make, options) => {
  const part = make();
  for (const paper of ['letter', 'a4', 'a3']) {
    const all: LayOutOptions = {
      paper: parsePaper(paper),
      margin: 12.7,
      overlap: 15,
      turn: 'auto',
      ...options,
    };
    for (const { drawing } of patternCover(part, layOut(part, all), dimensionsOf(part)))
      expect(faultsOn(drawing), paper).toEqual([]);
  }
});
