import { expect, test } from 'vitest';
import { point } from '../../../src/curves/geometry/point.ts';
import { type Item, polyline, words } from '../../../src/export/drawing/drawing.ts';
import { writeSvg } from '../../../src/export/writers/svg.ts';

const svg = (...items: Item[]): string => writeSvg({ width: 260, height: 180, items }, 'Bench apron');

test('what is drawn inside a rectangle only is grouped under that rectangle, each under its own', () => {
  const clip = (left: number, text: string): Item => ({
    type: 'clip',
    left,
    bottom: 20,
    right: left + 30,
    top: 60,
    items: [words(text, point(left, 20), 3), polyline('cut', [point(0, 0), point(99, 99)])],
  });
  const text = svg(clip(10, '1A'), clip(50, '1B'));
  expect(text).toContain('<clipPath id="clip1"><rect x="10" y="120" width="30" height="40"/></clipPath>');
  expect(text).toContain('<clipPath id="clip2"><rect x="50" y="120" width="30" height="40"/></clipPath>');
  expect(text).toMatch(
    /<g clip-path="url\(#clip1\)"><text [^>]*>1A<\/text>\n<g class="cut" [^>]*>\n<path [^>]*\/>\n<\/g><\/g>/,
  );
  expect(text).toMatch(
    /<g clip-path="url\(#clip2\)"><text [^>]*>1B<\/text>\n<g class="cut" [^>]*>\n<path [^>]*\/>\n<\/g><\/g>/,
  );
});
