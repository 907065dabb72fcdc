import { describe, expect, test } from 'vitest';
import { faultsOf } from './faults-of.ts';

const PINS = (count: number): string =>
  Array.from({ length: count }, (_, i) => `[${(i + 1) / 100}, 1]`).join(', ');
const STEPS = (count: number): string =>
  Array.from({ length: count }, (_, i) => `    - line: [${i + 1}, 0]\n`).join('');

/** A rail with one thing more. */
const rail = (more: string, steps = '    - line: [300, 0]\n'): string =>
  `part: Wall shelf rail\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n${steps}${more}\n`;
const hole = (keys: string): string => rail(`joints:\n  - hole: {at: 5, out: 1, diameter: 2, ${keys}}`);

describe('the limit is accepted, one more is refused', () => {
  test.each<[what: string, most: string, over: string, code: string]>([
    ['quantity', rail('quantity: 1000'), rail('quantity: 1001'), 'job.count'],
    ['layers', rail('stock: {layers: 100}'), rail('stock: {layers: 101}'), 'job.count'],
    ['notes', rail(`notes: ${'a'.repeat(2000)}`), rail(`notes: ${'a'.repeat(2001)}`), 'job.text'],
    ['an end’s lean', rail('ends: {left: {rake: 75}}'), rail('ends: {left: {rake: 75.1}}'), 'job.too-steep'],
    [
      'the other way',
      rail('ends: {left: {rake: -75}}'),
      rail('ends: {left: {rake: -75.1}}'),
      'job.too-steep',
    ],
    ['a hole’s lean', hole('lean: 60'), hole('lean: 60.1'), 'job.lean'],
    ['a label', hole(`label: ${'a'.repeat(40)}`), hole(`label: ${'a'.repeat(41)}`), 'job.text'],
    [
      'the nails of one step',
      rail('', `    - batten: [300, 0]\n      through: [${PINS(200)}]\n`),
      rail('', `    - batten: [300, 0]\n      through: [${PINS(201)}]\n`),
      'job.too-many',
    ],
    ['the steps of an edge', rail('', STEPS(200)), rail('', STEPS(201)), 'job.too-many'],
    ['lines', `${rail('')}${'\n'.repeat(3992)}`, `${rail('')}${'\n'.repeat(3993)}`, 'job.too-big'],
  ])('%s', (_what, most, over, code) => {
    expect(faultsOf(most)).toEqual([]);
    expect(faultsOf(over).map((fault) => fault.code)).toEqual([code]);
  });
});
