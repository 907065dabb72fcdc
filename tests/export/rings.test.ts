import { createCanvas } from '@napi-rs/canvas';
import { expect, test } from 'vitest';
import { findRings } from './rings.ts';

test('a ring is found to a seventh of a dot wherever it stands between the dots', () => {
  const size = 80;
  for (const [dx, dy] of [
    [0, 0],
    [0.5, 0.25],
    [0.3, 0.8],
  ] as const) {
    const canvas = createCanvas(size, size);
    const context = canvas.getContext('2d');
    context.fillStyle = 'white';
    context.fillRect(0, 0, size, size);
    const [x, y] = [40 + dx, 40 + dy];
    context.lineWidth = 1.02;
    context.beginPath();
    context.arc(x, y, 23.6, 0, 2 * Math.PI);
    context.stroke();
    context.beginPath();
    context.moveTo(x - 39, y);
    context.lineTo(x + 39, y);
    context.moveTo(x, y - 39);
    context.lineTo(x, y + 39);
    context.stroke();
    const { data } = context.getImageData(0, 0, size, size);
    const dark = new Uint8Array(size * size).map((_, i) => 255 - (data[4 * i] ?? 255));
    const [ring] = findRings({ width: size, height: size, dark }, 23.6);
    // Dots are known by their middles: half a dot from the canvas's own count.
    expect(Math.abs(ring!.x - (x - 0.5))).toBeLessThan(0.15);
    expect(Math.abs(ring!.y - (y - 0.5))).toBeLessThan(0.15);
  }
});
