import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  fitView,
  panView,
  toPart,
  toScreen,
  type ViewTransform,
  zoomView,
} from '../../../src/page/canvas/view-transform.ts';

const MARGINS = { left: 50, right: 40, top: 30, bottom: 60 };
const BOX = { left: -10, right: 890, bottom: 5, top: 95 };
const view: ViewTransform = fitView(BOX, 1000, 500, MARGINS);

test('the whole part lies inside the margins, and fills the room one way', () => {
  const [low, high] = [
    toScreen(view, { x: BOX.left, y: BOX.bottom }),
    toScreen(view, { x: BOX.right, y: BOX.top }),
  ];
  expect(low.x).toBeCloseTo(50, 9);
  expect(high.x).toBeCloseTo(960, 9);
  expect(high.y).toBeGreaterThan(30);
  expect(low.y).toBeLessThan(440);
});

test('property: screen and part tell of the same place, nearer, farther and moved', () => {
  const place = fc.record({
    x: fc.double({ min: -2000, max: 2000, noNaN: true }),
    y: fc.double({ min: -2000, max: 2000, noNaN: true }),
  });
  fc.assert(
    fc.property(place, place, fc.double({ min: 0.1, max: 10, noNaN: true }), (p, about, factor) => {
      const near = panView(zoomView(view, about, factor), 12, -7);
      const back = toPart(near, toScreen(near, p));
      expect(Math.hypot(back.x - p.x, back.y - p.y)).toBeLessThan(1e-6);
      const kept = toScreen(zoomView(view, about, factor), toPart(view, about));
      expect(Math.hypot(kept.x - about.x, kept.y - about.y)).toBeLessThan(1e-6);
    }),
  );
});
