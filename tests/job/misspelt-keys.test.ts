import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { isMap, isPair, isScalar, LineCounter, parseDocument, visit } from 'yaml';
import { parseJob } from '../../src/job/parse/parse-job.ts';
import { STARTER_JOB } from '../../src/job/starter-job.ts';
import { faultsOf } from './faults-of.ts';

const samples = fileURLToPath(new URL('../../samples/', import.meta.url));

/** What no sample has. */
const THE_REST = `part: Rail
units: mm
graduation: 0.5
quantity: 2
pair: mirrored
edges:
  top:
    - from: [0, 60]
    - arc: [200, 60]
      radius: 900
    - arc: [400, 60]
      through: [300, 70]
    - bow: [600, 60]
      rise: 10
    - ellipse: [800, 60]
      rise: 10
    - batten: [1000, 60]
      apex: [900, 70]
      ends: [held, free]
    - batten: [1200, 60]
      through: [1100, 70]
      strip: {from: 6, to: 3}
  bottom:
    - from: [0, 0]
    - line: [1200, 0]
ends:
  left: {miter: 6, bevel: 4}
  right: {rake: 6, splay: 4}
joints:
  - slot: {at: 100, out: 30, length: 40, width: 10, turn: 5, depth: 8, label: button}
  - hole: {at: 200, out: 30, diameter: 10, depth: 8, lean: 2, toward: left}
  - center-line: {at: 300}
  - center-line: {out: 30}
  - mark: {at: 400, out: 30, label: leg}
allowance:
  saw: 1
  width: 3
`;

const JOBS: readonly (readonly [string, string])[] = [
  ...readdirSync(samples, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.yaml'))
    .sort()
    .map((name) => [name, readFileSync(join(samples, name), 'utf8')] as const),
  ['the starter', STARTER_JOB],
  ['all the rest', THE_REST],
];

interface Key {
  readonly name: string;
  /** The keys around it and beside it, without places in lists: where they are alike, a mistake is the same mistake. */
  readonly around: string;
  readonly offset: number;
  readonly line: number;
  readonly column: number;
}

/** Every key of a job but its edges', whose names are the maker's own. */
function keysOf(text: string): Key[] {
  const lines = new LineCounter();
  const keys: Key[] = [];
  const document = parseDocument(text, { lineCounter: lines, schema: 'failsafe' });
  visit(document, {
    Pair(_, { key }, ancestors) {
      if (!isScalar(key) || !key.range) throw new Error('a sample has plain keys');
      const above = ancestors.filter(isPair).map((pair) => String(pair.key));
      const group = ancestors.at(-1);
      if (!isMap(group)) throw new Error('a key stands in a group');
      if (above.at(-1) === 'edges') return;
      const { line, col } = lines.linePos(key.range[0]);
      // The names of edges are the maker's own.
      const path = above.map((name, i) => (above[i - 1] === 'edges' ? 'an edge' : name));
      const beside = group.items.map((pair) => String(pair.key));
      const around = [...path, beside.toSorted().join(' ')].join('.');
      keys.push({ name: String(key.value), around, offset: key.range[0], line, column: col });
    },
  });
  return keys;
}

/** A letter left out, two swapped, one written twice, at every place of a word; not the other spelling of a key. */
function slipsOf(word: string): string[] {
  const slips = [...word].flatMap((letter, i) => [
    word.slice(0, i) + word.slice(i + 1),
    word.slice(0, i) + word.slice(i + 1, i + 2) + letter + word.slice(i + 2),
    word.slice(0, i) + letter + word.slice(i),
  ]);
  return [...new Set(slips)].filter((slip) => slip !== word && slip !== 'centre-line');
}

/** What has been tried in one job need not be tried again in another. */
const tried = new Set<string>();

function isNew({ name, around }: Key): boolean {
  const known = tried.size;
  return tried.add(`${around}: ${name}`).size > known;
}

describe('a misspelled key is one fault, at that key, with the right key in the message', () => {
  test.each(JOBS)('%s', (_, text) => {
    expect(faultsOf(text)).toEqual([]);
    const keys = keysOf(text);
    expect(keys.length).toBeGreaterThan(10);
    for (const { name, offset, line, column } of keys.filter(isNew))
      for (const slip of slipsOf(name)) {
        const faults = faultsOf(text.slice(0, offset) + slip + text.slice(offset + name.length));
        const told = faults.map(({ message, ...place }) => ({ ...place, meant: meantIn(message), slip }));
        const once = { code: 'job.unknown-key', line, column, meant: name, slip };
        expect.soft(told).toEqual([expect.objectContaining(once)]);
      }
  });
});

const meantIn = (message: string): string | undefined => /Did you mean "([^"]*)"/.exec(message)?.[1];

test('an abbreviated required key is reported once', () => {
  const job = (joint: string, step = 'spline: [9, 0]\n      through: [4, 1]'): string =>
    `part: Rail\nunits: in\nedges:\n  a:\n    - from: [0, 0]\n    - ${step}\njoints:\n  - ${joint}\n`;
  const sound = 'hole: {at: 5, out: 1, diameter: 3/8}';
  expect(faultsOf(job(sound))).toEqual([]);
  for (const [text, line, meant] of [
    [job(sound, 'spline: [9, 0]\n      thru: [4, 1]'), 7, 'through'],
    [job(sound, 'arc: [9, 0]\n      rad: 30'), 7, 'radius'],
    [job('hole: {at: 5, out: 1, dia: 3/8}'), 9, 'diameter'],
    [job('slot: {at: 5, out: 1, len: 2, width: 1}'), 9, 'length'],
    [job('slot: {at: 5, out: 1, length: 2, wdt: 1}'), 9, 'width'],
    [job('mark: {at: 5, lbl: leg}'), 9, 'label'],
  ] as const) {
    const faults = faultsOf(text);
    expect(faults).toEqual([expect.objectContaining({ code: 'job.unknown-key', line })]);
    expect(meantIn(faults[0]!.message)).toBe(meant);
  }
});

test('the British spelling of center-line is the same joint', () => {
  const [us, british] = ['center-line', 'centre-line'].map((name) => {
    const text = THE_REST.replaceAll('center-line', name);
    expect(text).toContain(name);
    return parseJob(text).job.joints;
  });
  expect(british).toEqual(us);
});
