import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { insertItem, removeValue, setValue } from '../../../src/job/edit/set-value.ts';
import type { JobValue } from '../../../src/job/edit/yaml-text.ts';
import { parseJob } from '../../../src/job/parse/parse-job.ts';
import { STARTER_JOB } from '../../../src/job/starter-job.ts';
import { sampleText } from '../../part/jobs.ts';

type Tree = string | Tree[] | { [name: string]: Tree };

const read = (text: string): Tree => parse(text, { schema: 'failsafe' }) as Tree;
const leg = sampleText('hall-bench-leg.yaml');
const TEXTS = {
  leg,
  bracket: sampleText('wall-shelf-bracket.yaml'),
  starter: STARTER_JOB,
  'with Windows line ends': leg.replaceAll('\n', '\r\n'),
  'on one line': 'part: P\nunits: in\nedges: {top: [{from: [0, 0]}, {arc: [9, 0], rise: 1}]}\n',
};
const texts = Object.entries(TEXTS);

/** The places of a tree, as keys, and what is there. */
function places(tree: Tree, key = ''): [key: string, value: Tree][] {
  const inner =
    typeof tree === 'string'
      ? []
      : Array.isArray(tree)
        ? tree.flatMap((item, i) => places(item, `${key}[${i}]`))
        : Object.entries(tree).flatMap(([name, held]) => places(held, key === '' ? name : `${key}.${name}`));
  return key === '' ? inner : [[key, tree], ...inner];
}

/** A single point counts as the first of a list of points: its measures have no keys of their own here. */
const isMeasure = (key: string): boolean => /\]$/.test(key) && !/^(?:edges\.[^.[]+|joints)\[\d+\]$/.test(key);

const values: fc.Arbitrary<JobValue> = fc.oneof(
  fc.constantFrom(
    '3 1/4',
    'white oak',
    '12 mm',
    "5' 3",
    'a: b',
    '#4',
    '- 3',
    'ends, "so"',
    '{',
    'true',
    ' x ',
  ),
  fc.constantFrom<JobValue>(
    ['12', '3 1/4'],
    { miter: '6', bevel: '-4' },
    { batten: ['9', '0'], through: ['4', '1'] },
  ),
);

describe.each(texts)('setValue in %s', (_, text) => {
  const keys = places(read(text))
    .map(([key]) => key)
    .filter((key) => !isMeasure(key));

  test('changes that value and no other, and loses no comment outside it', () => {
    fc.assert(
      fc.property(fc.constantFrom(...keys), values, (key, value) => {
        const edited = setValue(text, key, value);
        const outside = (tree: Tree) =>
          places(tree).filter(([k]) => !k.startsWith(key) && !key.startsWith(k));
        expect(outside(read(edited))).toEqual(outside(read(text)));
        expect(Object.fromEntries(places(read(edited)))[key]).toEqual(value);
        const { length } = [...edited.matchAll(/#/g)];
        if (
          typeof value === 'string' &&
          !value.includes('#') &&
          typeof Object.fromEntries(places(read(text)))[key] === 'string'
        )
          expect(length).toBe([...text.matchAll(/#/g)].length);
      }),
      { numRuns: 150 },
    );
  });

  test('adds what is missing, with the keys above it', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(
          'stock.grain',
          'notes',
          'ends.left',
          'stands.foot-out.outer',
          'allowance.planing',
          'joints[0]',
          'fresh.of.all',
        ),
        values,
        (key, value) => {
          const fresh = removeValue(text, key);
          const edited = setValue(fresh, key, value);
          expect(Object.fromEntries(places(read(edited)))[key]).toEqual(value);
          const rest = (tree: Tree) => places(tree).filter(([k]) => !k.startsWith(key) && !key.startsWith(k));
          expect(rest(read(edited))).toEqual(rest(read(fresh)));
        },
      ),
      { numRuns: 100 },
    );
  });

  test('removeValue takes that value away and no other', () => {
    fc.assert(
      fc.property(fc.constantFrom(...keys.filter((key) => !/[[\]]/.test(key))), (key) => {
        const edited = removeValue(text, key);
        const left = places(read(edited)).map(([k]) => k);
        expect(left).not.toContain(key);
        const kept = (all: string[]) =>
          all.filter((k) => !/[[\]]/.test(k) && !k.startsWith(key) && !key.startsWith(k));
        expect(kept(left)).toEqual(kept(keys));
      }),
      { numRuns: 100 },
    );
  });

  test('insertItem puts a step into an edge, before or behind the others', () => {
    const [edge = '', steps] = places(read(text)).find(([key]) => /^edges\.[^.[]+$/.test(key)) ?? [];
    const before = steps as Tree[];
    fc.assert(
      fc.property(fc.nat(before.length), (index) => {
        const step = { arc: ['3', '0'], rise: '1/4' };
        const after = Object.fromEntries(places(read(insertItem(text, edge, index, step))))[edge];
        expect(after).toEqual(before.toSpliced(index, 0, step));
      }),
    );
  });
});

describe('the text of a job', () => {
  const lines = (before: string, after: string) => {
    const old = new Set(before.split('\n'));
    return after.split('\n').filter((line) => !old.has(line));
  };

  test('gets a new key under its heading, in the column of the others', () => {
    expect(lines(leg, setValue(leg, 'stock.grain', '5'))).toEqual(['  grain: 5']);
    const added = setValue(leg, 'ends', { left: { miter: '6' }, right: 'square' });
    expect(lines(leg, added)).toEqual(['ends:', '  left: { miter: 6 }', '  right: square']);
    expect(() => parseJob(added)).not.toThrow();
  });

  test('keeps a step on its lines where another takes its place', () => {
    const bow = setValue(leg, 'edges.back[1]', { bow: ['34', '2'], rise: '1 1/2' });
    expect(lines(leg, bow)).toEqual([
      '    - bow: [34, 2]',
      expect.stringMatching(/^ {6}rise: 1 1\/2 +# the nail/),
    ]);
    expect(parseJob(bow).job.edges).toHaveLength(2);
  });

  test('gets a list of joints, each on its line', () => {
    const mortise = { mortise: { at: '5', out: '1', length: '2', width: '3/8' } };
    const one = insertItem(leg, 'joints', 0, mortise);
    const two = insertItem(one, 'joints', 1, mortise);
    expect(lines(leg, two)).toEqual([
      'joints:',
      ...Array(2).fill('  - mortise: { at: 5, out: 1, length: 2, width: 3/8 }'),
    ]);
    expect(parseJob(two).job.joints).toHaveLength(2);
    expect(removeValue(removeValue(two, 'joints[1]'), 'joints[0]').trimEnd()).toBe(leg.trimEnd());
  });
});
