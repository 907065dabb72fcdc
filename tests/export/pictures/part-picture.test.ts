import { describe, expect, test } from 'vitest';
import { fairnessOf } from '../../../src/curves/fairness/fairness.ts';
import { type Box, pathBounds } from '../../../src/curves/geometry/bounds.ts';
import { flatten } from '../../../src/curves/geometry/flatten.ts';
import { distance, type Point, point } from '../../../src/curves/geometry/point.ts';
import type { Drawing, Stroke, Words } from '../../../src/export/drawing/drawing.ts';
import { CAP_HEIGHT, textWidth, WIDEST_FONT_FACTOR } from '../../../src/export/drawing/text-width.ts';
import { composePicture } from '../../../src/export/pictures/part-picture.ts';
import {
  type DrawnTooth,
  drawCombs,
  MAX_TOOTH_MM,
  pictureView,
} from '../../../src/export/pictures/picture-view.ts';
import { writeSvg } from '../../../src/export/writers/svg.ts';
import type { Part } from '../../../src/part/part.ts';
import { showLength } from '../../../src/units/rule.ts';
import { partOf, SAMPLES, samplePart } from '../../part/jobs.ts';
import { SOON_MS, took } from '../../took.ts';

const strokesOf = ({ items }: Drawing, style?: Stroke['style']): Stroke[] =>
  items
    .filter((item) => item.type === 'stroke')
    .filter((each) => style === undefined || each.style === style);

const wordsOf = ({ items }: Drawing): Words[] => items.filter((item) => item.type === 'words');

/** What words cover in any font, from the foot of a descender (0.2 of the size, as the font has it) to the capitals' top. */
function boxOf({ text, at, size, anchor }: Words): Box {
  const width = textWidth(text, size) * WIDEST_FONT_FACTOR;
  const left = at.x - { start: 0, middle: width / 2, end: width }[anchor];
  return { left, right: left + width, bottom: at.y - 0.2 * size, top: at.y + CAP_HEIGHT * size };
}

const overlapping = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;

/** Steps along a drawn line, mm: far less than the least words are high or wide. */
const STEP_MM = 0.2;

/** Places all along some strokes. */
const placesOn = (strokes: readonly Stroke[]): Point[] =>
  flatten(strokes.flatMap(({ path }) => path)).flatMap(({ from, to }) => {
    const steps = Math.ceil(distance(from, to) / STEP_MM) + 1;
    return Array.from({ length: steps + 1 }, (_, i) =>
      point(from.x + ((to.x - from.x) * i) / steps, from.y + ((to.y - from.y) * i) / steps),
    );
  });

/** Where the straight stretches of a stroke begin and end. */
const cornersOf = ({ path }: Stroke): Point[] =>
  path.flatMap((each) => (each.type === 'line' ? [each.from, each.to] : []));

/** The teeth drawn: thin lines that end on the line along their tips, as the lines from label to place do not. */
function teethOf(picture: Drawing): Stroke[] {
  const written = ({ x, y }: Point): string => `${x} ${y}`;
  const tips = new Set(strokesOf(picture, 'mark').flatMap(cornersOf).map(written));
  return strokesOf(picture, 'station').filter((each) => tips.has(written(cornersOf(each).at(-1)!)));
}

const inside = ({ left, right, bottom, top }: Box, { x, y }: Point): boolean =>
  x > left && x < right && y > bottom && y < top;

/** Everything lies on the page, and no words cover the line to cut, a tooth or other words. */
function expectReadable(picture: Drawing): void {
  const { width, height, items } = picture;
  for (const item of items) {
    if (item.type === 'clip') throw new Error('a picture needs no clip');
    const box = item.type === 'words' ? boxOf(item) : pathBounds(item.path);
    expect(box.left).toBeGreaterThanOrEqual(0);
    expect(box.bottom).toBeGreaterThanOrEqual(0);
    expect(box.right).toBeLessThanOrEqual(width);
    expect(box.top).toBeLessThanOrEqual(height);
  }
  const labels = wordsOf(picture);
  const line = placesOn([...strokesOf(picture, 'cut'), ...strokesOf(picture, 'saw'), ...teethOf(picture)]);
  for (const [i, label] of labels.entries()) {
    const box = boxOf(label);
    expect(
      line.filter((p) => inside(box, p)),
      `"${label.text}" on the line`,
    ).toEqual([]);
    for (const other of labels.slice(i + 1))
      expect(overlapping(box, boxOf(other)), `"${label.text}" on "${other.text}"`).toBe(false);
  }
}

const textOn = (picture: Drawing): string =>
  wordsOf(picture)
    .map(({ text }) => text)
    .join(' ');

/** The combs of a part as they are drawn, but for the scale of the part, which teeth do not have. */
const combsOf = (part: Part): DrawnTooth[][] => drawCombs(pictureView(part, 1, point(0, 0)));

const toothLength = ({ foot, tip }: DrawnTooth): number => distance(foot, tip);

const brace = (steps: string): Part =>
  partOf(`part: Brace\nunits: mm\nedges:\n  brace:\n    - from: [0, 0]\n    - ${steps}\n`);

describe.each(SAMPLES)('the picture of %s', (name) => {
  const part = samplePart(name);
  const picture = composePicture(part);

  test('stays on the page, its words clear of the line and of each other', () => {
    expectReadable(picture);
  });

  test('draws the whole outline at one scale both ways', () => {
    const [outline] = strokesOf(picture, 'cut');
    const [drawn, real] = [pathBounds(outline!.path), part.bounds];
    const saw = strokesOf(picture, 'saw').flatMap(({ path }) => path);
    const all = saw.length > 0 ? pathBounds([...outline!.path, ...saw]) : drawn;
    const across = (all.right - all.left) / (real.right - real.left);
    expect((all.top - all.bottom) / (real.top - real.bottom)).toBeCloseTo(across, 6);
  });

  test('draws a comb whose longest tooth is the maximum tooth', () => {
    const teeth = combsOf(part).flat();
    expect(Math.max(...teeth.map(toothLength))).toBeCloseTo(MAX_TOOTH_MM, 9);
    const drawn = teethOf(picture)
      .map(cornersOf)
      .map(([foot, tip]) => distance(foot!, tip!));
    // Half of those measured, none on straight pieces.
    const bent = teeth.filter(({ tooth }) => tooth.piece.type !== 'line');
    expect(drawn.length).toBeGreaterThan(bent.length / 3);
    expect(Math.max(...drawn)).toBeLessThanOrEqual(MAX_TOOTH_MM * (1 + 1e-9));
    expect(Math.max(...drawn)).toBeGreaterThan(MAX_TOOTH_MM * 0.9);
  });

  test('draws teeth square to the line, on its round side', () => {
    for (const { tooth, foot, tip } of combsOf(part).flat()) {
      const along = (tip.x - foot.x) * Math.cos(tooth.angle) + (tip.y - foot.y) * Math.sin(tooth.angle);
      const left = (tip.y - foot.y) * Math.cos(tooth.angle) - (tip.x - foot.x) * Math.sin(tooth.angle);
      expect(Math.abs(along)).toBeLessThan(1e-9);
      // A line turning left is hollow on its left: its teeth stand on the right.
      expect(left * tooth.curvature).toBeLessThanOrEqual(0);
    }
  });

  test('names every edge with its fairness remarks, and the unit of the stations', () => {
    const text = textOn(picture);
    expect(text).toContain(part.name);
    for (const { name: edge, runs } of part.edges) {
      expect(text).toContain(`${edge}: `);
      for (const { message } of fairnessOf(runs).remarks)
        expect(text).toContain(message((mm) => showLength(mm, part.rule)));
    }
    expect(text).toContain(`stations, ${part.rule.unit}`);
  });

  test('can be written', () => expect(writeSvg(picture, part.name)).not.toMatch(/NaN|Infinity/));
});

test('the labels of the leg of a hall bench give its apex and its nail', () => {
  const text = textOn(composePicture(samplePart('hall-bench-leg.yaml')));
  expect(text).toMatch(/apex 1\d(?: \d+⁄\d+)?/);
  // The nail as it stands in the job: at 12 in, 3 1/4 in off.
  expect(text).toContain('nail 12, 3 1⁄4');
});

test('the teeth of a circular arc are all equally long, those of a straight run are none', () => {
  const [comb] = combsOf(samplePart('hall-bench-stretcher.yaml'));
  const lengths = (type: string): number[] =>
    comb!.filter(({ tooth }) => tooth.piece.type === type).map(toothLength);
  expect(lengths('arc').length).toBeGreaterThan(20);
  for (const length of lengths('arc')) expect(length).toBeCloseTo(MAX_TOOTH_MM, 9);
  for (const length of lengths('line')) expect(length).toBe(0);
});

test('the comb of a batten that is free at its ends falls to nothing there', () => {
  for (const comb of combsOf(samplePart('garden-arch-rail.yaml'))) {
    const lengths = comb.map(toothLength);
    expect(lengths[0]).toBeLessThan(1e-6);
    expect(lengths.at(-1)).toBeLessThan(1e-6);
    const longest = lengths.indexOf(Math.max(...lengths));
    // It grows up to the nail and falls behind it.
    for (let i = 1; i < lengths.length; i++)
      expect((lengths[i]! - lengths[i - 1]!) * (i <= longest ? 1 : -1)).toBeGreaterThanOrEqual(-1e-9);
  }
});

test('the comb of a batten that is held at an end does not fall there', () => {
  const [comb] = combsOf(brace('batten: [400, 0]\n      through: [200, 30]\n      ends: [held, free]'));
  expect(toothLength(comb![0]!)).toBeGreaterThan(MAX_TOOTH_MM / 4);
  expect(toothLength(comb!.at(-1)!)).toBeLessThan(1e-6);
});

test('a straight part has no comb', () => {
  const part = brace('line: [500, 0]');
  expect(combsOf(part)).toEqual([]);
  const picture = composePicture(part);
  expectReadable(picture);
  expect(strokesOf(picture, 'mark')).toEqual([]);
  expect(fairnessOf(part.edges.flatMap(({ runs }) => runs)).remarks.map(({ code }) => code)).toEqual([
    'fairness.straight',
  ]);
});

describe('a part of any size is drawn', () => {
  test.each<[name: string, steps: string]>([
    ['1 mm long', 'arc: [1, 0]\n      rise: 0.1'],
    ['10 m long', 'batten: [10 m, 0]\n      apex: [5 m, 900]'],
    ['very flat', 'batten: [2000, 0]\n      apex: [1000, 0.1]'],
    ['higher than long', 'line: [20, 3000]\n    - line: [40, 0]'],
    [
      'with many nails',
      'batten: [600, 0]\n      through: [[60, 22], [100, 30], [140, 31], [180, 40], [220, 37], [330, 40], [460, 29]]',
    ],
    [
      'of every kind of run',
      `line: [100, 0]
    - batten: [500, 0]
      through: [[220, 30], [380, 30]]
    - arc: [800, 0]
      rise: 20
    - bow: [1100, 0]
      rise: -20
    - ellipse: [1400, 0]
      rise: 60
    - batten: [1700, 0]
      through: [1550, 20]
      strip: {from: 6, to: 3}`,
    ],
  ])('%s', (_, steps) => {
    const part = brace(steps);
    const picture = composePicture(part);
    expectReadable(picture);
    expect(picture.height).toBeLessThan(picture.width * 1.5);
    expect(writeSvg(picture, part.name)).not.toMatch(/NaN|Infinity/);
  });
});

test('two hundred arcs, with more labels than fit, are drawn in time', () => {
  const edge = (y: number, rise: number): string => {
    const arcs = Array.from(
      { length: 200 },
      (_, i) => `    - arc: [${10 * (i + 1)}, ${y}]\n      rise: ${rise}\n`,
    );
    return `    - from: [0, ${y}]\n${arcs.join('')}`;
  };
  const part = partOf(`part: Rail\nunits: mm\nedges:\n  a:\n${edge(0, -1)}  b:\n${edge(300, 1)}`);
  expect(took(() => void composePicture(part))).toBeLessThan(SOON_MS);
});
