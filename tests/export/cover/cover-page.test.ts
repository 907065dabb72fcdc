import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { patternCover } from '../../../src/export/cover/cover-page.ts';
import { dimensionsOf } from '../../../src/export/drawing/dimensions.ts';
import type { Page, Words } from '../../../src/export/drawing/drawing.ts';
import { textWidth } from '../../../src/export/drawing/text-width.ts';
import { parseJob } from '../../../src/job/parse/parse-job.ts';
import { halfOf } from '../../../src/part/derived/half-pattern.ts';
import { makePart } from '../../../src/part/make-part.ts';
import type { Part } from '../../../src/part/part.ts';
import { planWood } from '../../../src/shop/stock/stock-plan.ts';
import { parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { type LayOutOptions, layOut } from '../../../src/tiling/tile.ts';
import { archTop, backLeg, block } from '../../tiling/parts.ts';

const SAMPLES = ['hall-bench-leg', 'garden-arch-rail', 'hall-bench-stretcher', 'wall-shelf-bracket'];

const sample = (name: string): Part =>
  makePart(parseJob(readFileSync(new URL(`../../../samples/${name}.yaml`, import.meta.url), 'utf8')).job);

function coversOf(part: Part, paper: string, turn: 'auto' | number = 'auto') {
  const layout = layOut(part, { paper: parsePaper(paper), margin: 12.7, overlap: 15, turn });
  return { layout, covers: patternCover(part, layout, dimensionsOf(part)) };
}

const wordsOn = ({ drawing }: Page): Words[] => drawing.items.filter((item) => item.type === 'words');
const textOn = (pages: readonly Page[]): string =>
  pages
    .flatMap(wordsOn)
    .map(({ text }) => text)
    .join(' ');

/** All the cover says of a job in millimetres with one edge of these steps. */
function sentencesOf(steps: string): string {
  const job = `part: Brace\nunits: mm\nedges:\n  brace:\n    - from: [0, 0]\n    - ${steps}\n`;
  return textOn(coversOf(makePart(parseJob(job).job), 'a3').covers);
}

describe('the cover', () => {
  test.each(
    SAMPLES.flatMap((name) =>
      ['letter', 'a4'].flatMap(
        (paper) =>
          [
            [name, paper, 'auto'],
            [name, paper, 90],
          ] as const,
      ),
    ),
  )('of %s fits on one page of %s, turn %s', (name, paper, turn) => {
    expect(coversOf(sample(name), paper, turn).covers.map((page) => page.name)).toEqual(['cover']);
  });

  test('tells of grain over the caution band, and of no other', () => {
    for (const name of SAMPLES) {
      const part = sample(name);
      const { grain } = planWood(part, {});
      // Over 11°, the caution band of the advice on wood.
      const isWeak = grain.worst.angle > (11 * Math.PI) / 180;
      expect(textOn(coversOf(part, 'a3').covers).includes('Grain runout'), name).toBe(isWeak);
    }
    expect(planWood(sample('wall-shelf-bracket'), {}).grain.worst.angle).toBeGreaterThan(0.5);
    expect(planWood(sample('hall-bench-leg'), {}).grain.worst.angle).toBeLessThan(0.19);
  });

  test.each(['letter', 'a3', '160x200mm', '160x300mm'])(
    'on %s keeps all its words inside the margins',
    (paper) => {
      const { covers, layout } = coversOf(sample('hall-bench-leg'), paper);
      for (const page of covers)
        for (const { text, at, size, anchor } of wordsOn(page)) {
          const left =
            at.x -
            (anchor === 'start'
              ? 0
              : anchor === 'middle'
                ? textWidth(text, size) / 2
                : textWidth(text, size));
          expect(left).toBeGreaterThanOrEqual(12.6);
          expect(left + textWidth(text, size), text).toBeLessThanOrEqual(layout.paper.width - 12.6);
          expect(at.y - size * 0.2).toBeGreaterThanOrEqual(12.5);
          expect(at.y + size * 0.7).toBeLessThanOrEqual(layout.paper.height - 12.6);
        }
    },
  );

  test('on small paper the words run on and none is lost', () => {
    const [large, small] = ['a3', '160x200mm'].map(
      (paper) => coversOf(sample('hall-bench-leg'), paper).covers,
    );
    expect(small!.length).toBeGreaterThan(1);
    expect(small!.map(({ name }) => name).slice(0, 2)).toEqual(['cover', 'cover 2']);
    for (const words of ['Warning', 'Check the taped pattern', 'Caution', '15 5⁄8']) {
      expect(textOn(large!)).toContain(words);
      expect(textOn(small!)).toContain(words);
    }
  });

  test('names every sheet on the map and the code in the subtitle', () => {
    const { covers, layout } = coversOf(archTop(), 'a4');
    const words = wordsOn(covers[0]!).map(({ text }) => text);
    for (const { name } of layout.sheets) expect(words).toContain(name);
    expect(textOn(covers)).toContain(`code ${layout.code}`);
  });

  test('gives each measure as the maker’s rule shows it', () => {
    const text = textOn(coversOf(backLeg(), 'letter').covers);
    // The straight front tells of every seam along the part.
    // ± by hand: 863.6 · (0.2/100 + 0.001) + 0.3·√3 = 3.11 mm, up to the next thirty-second 4/32.
    expect(text).toContain('34″ ± 1⁄8″ front, end to end, straight');
    expect(text).not.toContain('back, end to end');
  });

  test('says what helps where ± is more than an eighth of an inch, and only then', () => {
    const rail = block(2400, 150);
    const saying = (options: Partial<LayOutOptions>): string => {
      const layout = layOut(rail, {
        paper: parsePaper('a4'),
        margin: 12.7,
        overlap: 15,
        turn: 'auto',
        ...options,
      });
      return textOn(patternCover(rail, layout, dimensionsOf(rail)));
    };
    // By hand: 2400 · (0.2/100 + 0.001) + 0.3 · √8 = 8.05 mm over nine sheets, up to the next half millimetre.
    expect(saying({})).toMatch(
      /± 8\.5 mm is too much for a joint\. Measure the printer once, .* Use larger paper or a roll\. Check the long distances with a steel rule/,
    );
    const measured = saying({ printer: { across: 1, down: 1 } });
    expect(measured).toMatch(/is too much for a joint\. Use larger paper or a roll\. Check the long/);
    expect(saying({ paper: parsePaper('roll:24in') })).toMatch(
      /is too much for a joint\. Measure the printer once, [^.]*\. Check the long/,
    );
    expect(textOn(coversOf(backLeg(), 'letter').covers)).not.toContain('too much for a joint');
  });

  test('says which curve each run is', () => {
    expect(textOn(coversOf(backLeg(), 'a3').covers)).toMatch(/front, 0″ to 34″; back, 0″ to 8″: straight\./);
    expect(textOn(coversOf(backLeg(), 'a3').covers)).toMatch(/the curve of a batten/);
    // 1200² / (8·320) + 320/2 = 722.5 mm, by hand.
    expect(textOn(coversOf(archTop(), 'a3').covers)).toContain('part of a circle of radius 722.5 mm');
  });

  const BATTEN = /batten of even thickness, bent over nails and free to slide along them/;

  test.each<[step: string, words: RegExp]>([
    ['bow: [400, 0]\n      rise: 60', /0 mm to 400 mm: the curve of a batten that is bent like a bow/],
    ['ellipse: [400, 0]\n      rise: 60', /0 mm to 400 mm: half an ellipse on its chord\./],
    ['batten: [400, 0]\n      through: [200, 30]', /slide along them\./],
    ['batten: [400, 0]\n      through: [[150, 30], [250, 30]]', /slide along them\./],
    [
      'batten: [400, 0]\n      through: [200, 30]\n      ends: held',
      /them\. The batten is held at both ends, in line with/,
    ],
    [
      'batten: [400, 0]\n      through: [200, 30]\n      ends: [held, free]',
      /them\. The batten is held at its start, in line with/,
    ],
    [
      'batten: [400, 0]\n      apex: [200, 30]\n      ends: [free, held]',
      /them\. The batten is held at its end, in line with/,
    ],
  ])('says of %s which curve it is', (step, words) => {
    const text = sentencesOf(step);
    expect(text).toMatch(words);
    if (step.startsWith('batten')) expect(text).toMatch(BATTEN);
  });

  test('warns that a tapered batten slides, with its thicknesses as the rule shows them', () => {
    const text = sentencesOf('batten: [400, 0]\n      through: [200, 30]\n      strip: {from: 6.35, to: 3}');
    expect(text).toMatch(/batten tapered from 6\.5 mm scant to 3 mm thick, bent over one nail/);
    expect(text).toMatch(/slides toward its thick end, so put a stop there\./);
    expect(text).not.toMatch(BATTEN);
  });

  test('says of each run on its own which curve it is', () => {
    const text = sentencesOf('line: [100, 0]\n    - bow: [400, 0]\n      rise: 60');
    expect(text).toMatch(/brace, 0 mm to 100 mm: straight\..*brace, 100 mm to 400 mm: the curve of a batten/);
  });

  test('one sheet needs no taping', () => {
    expect(textOn(coversOf(block(100, 100), 'a4').covers)).toContain('Nothing needs taping');
  });

  test('of a half pattern says where to flip it, and measures to the center line', () => {
    const text = textOn(coversOf(halfOf(sample('garden-arch-rail')), 'a4').covers);
    expect(text).toContain('half pattern, to flip at the center line');
    expect(text).toMatch(/left half, up to the center line at 930 mm/);
    expect(text).toContain('lower, end to center line, straight');
    expect(text).not.toContain('1860 mm ±');
  });

  test('names the printer the sheets are drawn for, and what to do when a measure is off', () => {
    const layout = layOut(backLeg(), {
      paper: parsePaper('letter'),
      margin: 12.7,
      overlap: 15,
      turn: 'auto',
      printer: { name: 'shop-laser', across: 0.997, down: 1.003 },
    });
    const text = textOn(patternCover(backLeg(), layout, dimensionsOf(backLeg())));
    expect(text).toMatch(/corrected for the printer “shop-laser” that prints 99\.7% across, 100\.3% down/);
    for (const words of ['by the same percentage', 'open that seam', 'steps or bends'])
      expect(text).toContain(words);
  });

  test('with a roll is an ordinary page', () => {
    const { covers, layout } = coversOf(backLeg(), 'roll:24in');
    expect(covers.map(({ drawing }) => [drawing.width, drawing.height])).toEqual([
      [expect.closeTo(215.9, 9), expect.closeTo(279.4, 9)],
    ]);
    expect(layout.sheets).toHaveLength(1);
    expect(textOn(covers)).toMatch(/24-inch roll.*Print this cover on any printer/);
    const wide = { ...layout, margin: { top: 5, right: 5, bottom: 5, left: 200 } };
    expect(textOn(patternCover(backLeg(), wide, dimensionsOf(backLeg())))).toBe(textOn(covers));
  });
});
