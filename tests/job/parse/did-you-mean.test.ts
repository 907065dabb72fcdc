import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { JOB_KEYS, STOCK_KEYS } from '../../../src/job/job-keys.ts';
import { JOINT_KINDS } from '../../../src/job/joints/joint-kinds.ts';
import { closestName } from '../../../src/job/parse/did-you-mean.ts';
import { STEP_NAMES, stepKeys } from '../../../src/job/steps/step-kinds.ts';

test.each([
  ['rize', 'rise'],
  ['Rise', 'rise'],
  ['raduis', 'radius'],
  ['thru', 'through'],
  ['rad', 'radius'],
  ['threw', undefined],
  ['throgh', 'through'],
  ['x', undefined],
  ['th', undefined],
  ['', undefined],
])('%j suggests %j', (written, meant) => {
  expect(closestName(written, ['through', 'rise', 'radius'])).toBe(meant);
});

test.each([
  ['dia', 'diameter', JOINT_KINDS.hole.keys],
  ['len', 'length', JOINT_KINDS.slot.keys],
  ['lth', 'length', JOINT_KINDS.slot.keys],
  ['wid', 'width', JOINT_KINDS.slot.keys],
  ['thk', 'thickness', STOCK_KEYS],
  ['thick', 'thickness', STOCK_KEYS],
  ['qty', 'quantity', JOB_KEYS],
  ['grad', 'graduation', JOB_KEYS],
  ['thru', 'through', stepKeys('batten')],
] as const)('%j is short for %j', (written, meant, known) => {
  expect(closestName(written, known)).toBe(meant);
});

test('two swapped letters count as one edit', () => {
  expect(closestName('ta', ['at', 'out'])).toBe('at');
  expect(closestName('otu', ['at', 'out'])).toBe('out');
  expect(closestName('edns', ['edges', 'ends'])).toBe('ends');
});

test('an abbreviation of several names suggests none', () =>
  expect(closestName('spl', ['splay', 'spline'])).toBeUndefined());

test('on a tie a missing letter wins over a changed one', () => {
  expect(closestName('ot', ['at', 'out'])).toBe('out');
});

test('a single letter suggests nothing', () => expect(closestName('a', ['b'])).toBeUndefined());

describe('no false suggestions', () => {
  const VOCABULARIES = [
    JOB_KEYS,
    STOCK_KEYS,
    ...Object.values(JOINT_KINDS).map(({ keys }) => keys),
    ...STEP_NAMES.map(stepKeys),
  ];
  const anyNames = fc.constantFrom(...VOCABULARIES, STEP_NAMES);

  test('property: a suggested name shares most letters', () =>
    fc.assert(
      fc.property(
        anyNames,
        fc.string({ unit: fc.constantFrom(...'adehilnorstuw'), maxLength: 9 }),
        (names, word) => {
          const meant = closestName(word, names);
          if (meant === undefined) return;
          const foreign = [...word].filter((letter) => !meant.includes(letter));
          expect(foreign.length).toBeLessThanOrEqual(Math.min(2, Math.floor(word.length / 2)));
        },
      ),
    ));

  test('property: a word without letters of a name suggests nothing', () =>
    fc.assert(
      fc.property(
        anyNames,
        fc.string({ unit: fc.constantFrom(...'jkvxyz'), minLength: 3 }),
        (names, word) => {
          expect(
            closestName(
              word,
              names.filter((name) => !/[jkvxyz]/.test(name)),
            ),
          ).toBeUndefined();
        },
      ),
    ));

  test('property: every name suggests itself', () =>
    fc.assert(
      fc.property(anyNames, (names) => {
        expect(names.map((name) => closestName(name, names))).toEqual(names);
      }),
    ));

  test.each([
    ['colour', JOB_KEYS],
    ['date', JOB_KEYS],
    ['price', STOCK_KEYS],
    ['wood', STOCK_KEYS],
    ['offset', JOINT_KINDS.mortise.keys],
    ['angle', stepKeys('arc')],
    ['centre', stepKeys('arc')],
  ] as const)('%j is no slip of any name', (word, known) => expect(closestName(word, known)).toBeUndefined());
});
