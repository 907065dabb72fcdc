import { describe, expect, test } from 'vitest';
import { PAPERS, parsePaper } from '../../../src/tiling/paper/paper-sizes.ts';
import { Fault } from '../../../src/units/fault.ts';

const faultOf = (text: string): Fault => {
  try {
    parsePaper(text);
  } catch (fault) {
    if (fault instanceof Fault) return fault;
  }
  throw new Error(`"${text}" was taken`);
};

describe('papers known by name', () => {
  // ISO 216: A4 210 × 297 mm, A3 297 × 420 mm. ANSI/ASME Y14.1: A 8.5 × 11 in, B 11 × 17 in.
  test.each([
    ['a4', 210, 297],
    ['a3', 297, 420],
    ['letter', 215.9, 279.4],
    ['tabloid', 279.4, 431.8],
    ['legal', 215.9, 355.6],
    ['Letter', 215.9, 279.4],
    [' A4 ', 210, 297],
  ])('%s', (name, width, height) => {
    const paper = parsePaper(name);
    expect(paper.width).toBeCloseTo(width, 9);
    expect(paper.height).toBeCloseTo(height, 9);
  });

  test('all stand upright', () => {
    for (const { width, height } of PAPERS) expect(width).toBeLessThan(height);
  });
});

describe('papers by size', () => {
  test.each([
    ['13x19in', 330.2, 482.6],
    ['13 x 19 in', 330.2, 482.6],
    ['19in x 13in', 330.2, 482.6],
    ['329x483mm', 329, 483],
    ['300mmx400mm', 300, 400],
    ['30 × 40 cm', 300, 400],
    ['13inx483mm', 330.2, 483],
    ['100x100mm', 100, 100],
    ['200x150in', 3810, 5080],
  ])('%s stands upright', (text, width, height) => {
    const paper = parsePaper(text);
    expect(paper.width).toBeCloseTo(width, 9);
    expect(paper.height).toBeCloseTo(height, 9);
  });

  test('one size has one name, however it is typed', () => {
    expect(parsePaper('19 x 13 in').name).toBe(parsePaper('13x19in').name);
  });
});

describe('papers that are none', () => {
  test.each([
    ['13x19', 'paper.no-unit'],
    ['99x300mm', 'paper.too-small'],
    ['0x0mm', 'paper.too-small'],
    ['200x201in', 'paper.too-large'],
    ['lettre', 'paper.unknown'],
    ['', 'paper.unknown'],
    ['13x19xx in', 'paper.unknown'],
    ['NaNxNaNmm', 'paper.unknown'],
    ['-13x19in', 'paper.unknown'],
    [`${'9'.repeat(400)}x9in`, 'paper.too-large'],
  ])('%s', (text, code) => {
    expect(faultOf(text).code).toBe(code);
  });

  test('a missing unit is named with both cures', () => {
    expect(faultOf('13x19').message).toMatch(/13x19in or 13x19mm/);
  });

  test.each([
    ['leter', 'letter'],
    ['letetr', 'letter'],
    ['a33', 'a3'],
    ['tabliod', 'tabloid'],
  ])('%s is taken for a slip of %s', (text, meant) => {
    expect(faultOf(text).message).toContain(`Did you mean "${meant}"?`);
  });

  test('a word unlike any paper gets no guess', () => {
    expect(faultOf('cardboard').message).not.toContain('Did you mean');
  });
});
