import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { JobFaults } from '../../src/job/job-faults.ts';
import { parseJob } from '../../src/job/parse/parse-job.ts';
import { MAX_JOB_LINES } from '../../src/job/parse/read-yaml.ts';
import { STARTER_JOB } from '../../src/job/starter-job.ts';
import { SOON_MS, took } from '../took.ts';
import { anyText } from '../units/any-text.ts';
import { type Found, faultsOf } from './faults-of.ts';

const job = (edge: string): string => `part: A\nunits: in\nedges:\n  a: ${edge}\n`;

const bomb = (): string => {
  const lines = ['a0: &a0 [x, x, x, x, x, x, x, x, x]'];
  for (let i = 1; i < 30; i++)
    lines.push(
      `a${i}: &a${i} [${Array(9)
        .fill(`*a${i - 1}`)
        .join(', ')}]`,
    );
  return lines.join('\n');
};

describe('a hostile text is refused quickly', () => {
  test.each<[name: string, text: string, code: string]>([
    ['brackets thirty thousand deep', '['.repeat(30_000), 'job.too-deep'],
    ['closed brackets as deep', job('['.repeat(30_000) + ']'.repeat(30_000)), 'job.too-deep'],
    ['braces as deep', '{a: '.repeat(15_000), 'job.too-deep'],
    ['dashes as deep', `${'- '.repeat(30_000)}a`, 'job.too-deep'],
    ['question marks as deep', '? '.repeat(30_000), 'job.too-deep'],
    [
      'steps of indentation',
      Array.from({ length: 300 }, (_, i) => `${' '.repeat(i)}a:`).join('\n'),
      'job.too-deep',
    ],
    ['aliases of aliases', bomb(), 'job.alias'],
    ['more bytes than a job has', '#'.repeat(300_000), 'job.too-big'],
    ['more bytes than a job has, in accents', '#é'.repeat(25_000), 'job.too-big'],
    ['more lines than a job has', 'a:\n'.repeat(MAX_JOB_LINES), 'job.too-big'],
    ['a picture', '\u0089PNG\r\n\u001A\n\0\0\0\rIHDR', 'job.not-text'],
    ['remarks only', '#\n'.repeat(MAX_JOB_LINES - 1), 'job.empty'],
    ['blank lines only', '\n'.repeat(MAX_JOB_LINES - 1), 'job.empty'],
    ['the same name over and over', 'a:\n'.repeat(1100), 'job.duplicate-key'],
    [
      'many different names',
      Array.from({ length: MAX_JOB_LINES }, (_, i) => `n${i}: 1`).join('\n'),
      'job.unknown-key',
    ],
    ['commas', `[${','.repeat(20_000)}]`, 'job.syntax'],
    ['quotes', '"\n'.repeat(MAX_JOB_LINES - 1), 'job.syntax'],
    ['tags', '!'.repeat(60_000), 'job.syntax'],
    ['one long word', 'a'.repeat(60_000), 'job.wrong-kind'],
    ['one long name', `${'a'.repeat(900)}: 1`, 'job.unknown-key'],
  ])('%s', (_, text, code) => {
    let found: Found[] = [];
    expect(
      took(() => {
        found = faultsOf(text);
      }),
    ).toBeLessThan(SOON_MS);
    expect(found.map((fault) => fault.code)).toContain(code);
    for (const { message } of found) expect(message.length).toBeLessThan(2000);
  });

  test('more than two hundred pins are too many', () => {
    const pins = Array.from({ length: 201 }, (_, i) => `[${i + 1}, 1]`).join(', ');
    const text = job(`[{from: [0, 0]}, {spline: [202, 0], through: [${pins}]}]`);
    expect(faultsOf(text)).toMatchObject([{ code: 'job.too-many', key: 'edges.a[1].through', line: 4 }]);
  });

  test('two hundred pins are not', () => {
    const pins = Array.from({ length: 200 }, (_, i) => `[${i + 1} mm, 1]`).join(', ');
    expect(faultsOf(job(`[{from: [0, 0]}, {spline: [2000 mm, 0], through: [${pins}]}]`))).toEqual([]);
  });

  test('more than two hundred over all steps are too many', () => {
    const step = (from: number) => {
      const pins = Array.from({ length: 150 }, (_, i) => `[${from + i + 1}, 1]`).join(', ');
      return `{batten: [${from + 151}, 0], through: [${pins}]}`;
    };
    expect(faultsOf(job(`[{from: [0, 0]}, ${step(0)}, ${step(151)}]`))).toMatchObject([
      { code: 'job.too-many', key: 'edges.a', message: expect.stringContaining('300') },
    ]);
  });

  test('more than two hundred steps are too many', () => {
    const steps = Array.from({ length: 201 }, (_, i) => `{line: [${i + 1}, 1]}`).join(', ');
    expect(faultsOf(job(`[{from: [0, 0]}, ${steps}]`))).toMatchObject([
      { code: 'job.too-many', key: 'edges.a' },
    ]);
  });

  test('a name with control characters is shown without them', () => {
    const text = `"\\e[2Jx": 1\n${job('[{from: [0, 0]}, {line: [9, 0]}]')}`;
    expect(faultsOf(text)).toMatchObject([{ code: 'job.unknown-key', key: '[2Jx' }]);
  });

  test.each(['__proto__', 'constructor', 'toString'])(
    'the name %s is an unknown key like any other',
    (name) => {
      const found = faultsOf(`${name}: 1\n${job('[{from: [0, 0]}, {line: [9, 0]}]')}`);
      expect(found).toMatchObject([{ code: 'job.unknown-key', key: name, line: 1, column: 1 }]);
    },
  );
});

/** One slip of a hand at the keyboard: characters dropped, put in or typed twice. */
const slip = fc.record({
  at: fc.nat({ max: STARTER_JOB.length - 1 }),
  drop: fc.nat({ max: 3 }),
  put: fc.oneof(
    anyText(3),
    fc.string({ unit: fc.constantFrom(...'[]{}:,-?&*!|>\'"#%@`~<\n\t \r\\0/.'), maxLength: 4 }),
    fc.nat({ max: STARTER_JOB.length }).map((from) => STARTER_JOB.slice(from, from + 40)),
  ),
});

test('property: a job with typing mistakes gives a job or faults with positions', () => {
  fc.assert(
    fc.property(fc.array(slip, { minLength: 1, maxLength: 4 }), (slips) => {
      const text = slips.reduce(
        (t, { at, drop, put }) => t.slice(0, at) + put + t.slice(at + drop),
        STARTER_JOB,
      );
      const lines = text.split('\n').length;
      try {
        expect(parseJob(text).job.edges.length).toBeGreaterThan(0);
      } catch (error) {
        if (!(error instanceof JobFaults)) throw error;
        for (const { place, message } of error.list) {
          expect(place.line).toBeGreaterThanOrEqual(1);
          expect(place.line).toBeLessThanOrEqual(lines);
          expect(place.column).toBeGreaterThanOrEqual(1);
          expect(message).not.toMatch(/undefined|NaN|\bmapping|scalar|token|YAML/i);
        }
        const each = error.list.map((f) => `${f.code} ${f.key} ${f.place.line}:${f.place.column}`);
        expect(new Set(each).size).toBe(each.length);
      }
    }),
    { numRuns: 300 },
  );
});
