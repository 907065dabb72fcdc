import { describe, expect, test } from 'vitest';
import { checkEdge, type EdgeCheck } from '../../../src/check/check-edge.ts';
import type { StationReading } from '../../../src/check/readings/read-readings.ts';
import { pathBounds } from '../../../src/curves/geometry/bounds.ts';
import type { Drawing, Stroke, Words } from '../../../src/export/drawing/drawing.ts';
import { textWidth } from '../../../src/export/drawing/text-width.ts';
import { composeCheckPicture } from '../../../src/export/pictures/check-picture.ts';
import { type BaseLine, chordLine, offsetAt, REFERENCE_LINE } from '../../../src/part/offsets.ts';
import { SAMPLES, samplePart } from '../../part/jobs.ts';
import { expectOnPicture } from '../on-picture.ts';

const strokes = ({ items }: Drawing, style: Stroke['style']): Stroke[] =>
  items.filter((item) => item.type === 'stroke').filter((each) => each.style === style);
const labels = ({ items }: Drawing): Words[] => items.filter((item) => item.type === 'words');

/** The last edge of a sample, measured at six stations with one of them off: the check, and its picture. */
function checked(name: string, off: number, from?: 'chord'): { check: EdgeCheck; picture: Drawing } {
  const part = samplePart(name);
  const edge = part.edges.at(-1)!;
  const base: BaseLine = from ? chordLine(edge) : REFERENCE_LINE;
  const end = edge.runs.at(-1)!.to.x;
  const readings = [0.05, 0.2, 0.4, 0.6, 0.8, 0.95].map((share, i): StationReading => {
    const station = share * end;
    return { station, offset: offsetAt(edge, station, base)! + (i === 3 ? off : 0) };
  });
  const how = { base, tolerance: 0.8, beforeSanding: false };
  const check = checkEdge(part, edge, readings, how);
  return { check, picture: composeCheckPicture(part, check) };
}

const pictureOf = (name: string, off: number, from?: 'chord'): Drawing => checked(name, off, from).picture;

describe.each(SAMPLES)('the picture of %s', (name) => {
  test.each([3, -3])('%d mm off stays on the page and is labelled', (off) => {
    const picture = pictureOf(name, off);
    expectOnPicture(picture);
    const said = labels(picture).map(({ text }) => text);
    expect(said.some((text) => text.endsWith(off > 0 ? 'proud' : 'shy'))).toBe(true);
  });

  test('the side without a deviation is as high as the band of the tolerance', () => {
    const [proud, shy] = [pictureOf(name, 3), pictureOf(name, -3)];
    const low = (picture: Drawing): number => pathBounds(strokes(picture, 'saw').at(-1)!.path).bottom;
    // Whatever is left free under the band, 22 mm of picture stand for the worst, square to the line.
    const { worst } = checked(name, -3).check;
    expect(low(shy) - low(proud)).toBeCloseTo(22 - (0.8 / worst) * 22, 0);
    expect(shy.height).toBeCloseTo(proud.height, 0);
  });

  test('only the tooth at the deviating station has a length', () => {
    const teeth = strokes(pictureOf(name, 3), 'station').map(({ path }) => pathBounds(path));
    const lengths = teeth.map(({ bottom, top }) => top - bottom);
    expect(lengths.filter((length) => length > 0.01)).toEqual([expect.closeTo(22, 6)]);
  });

  test('teeth stand on the line, measured from the reference line or the chord', () => {
    for (const from of [undefined, 'chord'] as const) {
      const picture = pictureOf(name, 3, from);
      const line = strokes(picture, 'cut')[0]!.path;
      const box = pathBounds(line);
      for (const { path } of strokes(picture, 'station')) {
        const [tooth] = path;
        if (tooth?.type !== 'line') throw new Error('a tooth is a straight line');
        expect(tooth.from.y).toBeGreaterThan(box.bottom - 0.01);
        expect(tooth.from.y).toBeLessThan(box.top + 0.01);
      }
    }
  });
});

test('every station out of the band is labelled, none on another or on the line of the tips', () => {
  const part = samplePart('hall-bench-leg.yaml');
  const edge = part.edges.at(-1)!;
  const readings = [0, 2, 4, 6, 8, 10, 12, 14, 16].map((inches, i): StationReading => {
    const station = 25.4 * inches;
    return { station, offset: offsetAt(edge, station)! + [0, 0, 1.1, 1.6, 2.1, 2.4, 0.9, 0, 0][i]! };
  });
  const how = { base: REFERENCE_LINE, tolerance: 0.8, beforeSanding: false };
  const picture = composeCheckPicture(part, checkEdge(part, edge, readings, how));
  const floor = Math.min(...labels(picture).map(({ at }) => at.y));
  const off = labels(picture).filter(({ at, anchor }) => anchor === 'middle' && at.y > floor);
  expect(off).toHaveLength(5);
  for (const [i, one] of off.entries())
    for (const other of off.slice(i + 1)) {
      const apart = (textWidth(one.text, one.size) + textWidth(other.text, other.size)) / 2;
      expect(
        Math.abs(one.at.x - other.at.x) > apart || Math.abs(one.at.y - other.at.y) > one.size,
        `"${one.text}" on "${other.text}"`,
      ).toBe(true);
    }
});

test('the second of a pair has a line through its own deviations, and room for it', () => {
  const part = samplePart('hall-bench-leg.yaml');
  const edge = part.edges.at(-1)!;
  const how = { base: REFERENCE_LINE, tolerance: 0.8, beforeSanding: false };
  const off = (stations: readonly number[], most: number) =>
    checkEdge(
      part,
      edge,
      stations.map(
        (station, i): StationReading => ({
          station,
          offset: offsetAt(edge, station)! + (i === 1 ? most : 0),
        }),
      ),
      how,
    );
  const [first, second] = [off([100, 300, 500, 700], 1), off([100, 400, 700], 4)];
  const picture = composeCheckPicture(part, first, second.readings);
  const lines = strokes(picture, 'parallel');
  expect(lines).toHaveLength(1);
  expect(lines[0]!.path).toHaveLength(2);
  const [line, tips] = [lines[0]!, strokes(picture, 'mark')[0]!].map(({ path }) => pathBounds(path));
  expect(line!.top).toBeGreaterThan(tips!.top);
  const lowestWords = Math.min(
    ...labels(picture)
      .filter(({ size }) => size > 3)
      .map(({ at }) => at.y),
  );
  expect(line!.top).toBeLessThan(lowestWords);
  expect(strokes(composeCheckPicture(part, first), 'parallel')).toEqual([]);
});
