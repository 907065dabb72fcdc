import { describe, expect, test } from 'vitest';
import { checkEdge } from '../../src/check/check-edge.ts';
import type { Reading } from '../../src/check/readings.ts';
import { pathBox } from '../../src/curves/box.ts';
import { composeCheckPicture } from '../../src/export/check-picture.ts';
import type { Drawing, Stroke, Words } from '../../src/export/drawing.ts';
import { writeSvg } from '../../src/export/svg.ts';
import { textWidth } from '../../src/export/type.ts';
import { type BaseLine, chordLine, offsetAt, REFERENCE_LINE } from '../../src/part/offsets.ts';
import { SAMPLES, samplePart } from '../part/jobs.ts';

const strokes = ({ items }: Drawing, style: Stroke['style']): Stroke[] =>
  items.filter((item) => item.type === 'stroke').filter((each) => each.style === style);
const labels = ({ items }: Drawing): Words[] => items.filter((item) => item.type === 'words');

/** The last edge of a sample, measured at six stations with one of them off. */
function pictureOf(name: string, off: number, from?: 'chord'): Drawing {
  const part = samplePart(name);
  const edge = part.edges.at(-1)!;
  const base: BaseLine = from ? chordLine(edge) : REFERENCE_LINE;
  const end = edge.runs.at(-1)!.to.x;
  const readings = [0.05, 0.2, 0.4, 0.6, 0.8, 0.95].map((share, i): Reading => {
    const station = share * end;
    return { station, offset: offsetAt(edge, station, base)! + (i === 3 ? off : 0) };
  });
  const how = { base, tolerance: 0.8, beforeSanding: false };
  return composeCheckPicture(part, checkEdge(part, edge, readings, how));
}

describe.each(SAMPLES)('the picture of %s', (name) => {
  test.each([3, -3])('%d mm off stays on the page and is labelled', (off) => {
    const picture = pictureOf(name, off);
    const box = pathBox(picture.items.flatMap((item) => (item.type === 'stroke' ? item.path : [])));
    expect(box.left).toBeGreaterThan(0);
    expect(box.bottom).toBeGreaterThan(0);
    expect(box.right).toBeLessThan(picture.width);
    expect(box.top).toBeLessThan(picture.height);
    for (const { text, at, size, anchor } of labels(picture)) {
      const width = textWidth(text, size);
      const left = at.x - (anchor === 'middle' ? width / 2 : 0);
      expect(left).toBeGreaterThan(0);
      expect(left + width).toBeLessThan(picture.width);
    }
    const said = labels(picture).map(({ text }) => text);
    expect(said.some((text) => text.endsWith(off > 0 ? 'proud' : 'shy'))).toBe(true);
    expect(writeSvg(picture, name)).not.toMatch(/NaN|Infinity/);
  });

  test('only the tooth at the station that is off has a length', () => {
    const teeth = strokes(pictureOf(name, 3), 'station').map(({ path }) => pathBox(path));
    const lengths = teeth.map(({ bottom, top }) => top - bottom);
    expect(lengths.filter((length) => length > 0.01)).toEqual([expect.closeTo(22, 6)]);
  });

  test('teeth stand on the line, measured from the reference line or the chord', () => {
    for (const from of [undefined, 'chord'] as const) {
      const picture = pictureOf(name, 3, from);
      const line = strokes(picture, 'cut')[0]!.path;
      const box = pathBox(line);
      for (const { path } of strokes(picture, 'station')) {
        const [tooth] = path;
        if (tooth?.type !== 'line') throw new Error('a tooth is a straight line');
        expect(tooth.from.y).toBeGreaterThan(box.bottom - 0.01);
        expect(tooth.from.y).toBeLessThan(box.top + 0.01);
      }
    }
  });
});
