import type { Random } from './random.ts';

/** What people and programs put where a number should stand. */
const NUMBERS = [
  '0',
  '-0',
  '-1',
  '1e9',
  '1e308',
  '1e-9',
  '0.000001',
  '999999',
  '1000000 mm',
  '1 km',
  'NaN',
  'Infinity',
  '.inf',
  '3/0',
  '1/3',
  '28 3/4',
  '28-3/4"',
  '1 5/4',
  '12,5',
  '٣',
  '½',
  '2\' 4"',
  '0x10',
  '1_000',
  '',
  '~',
  'null',
  'yes',
  '[1, 2]',
  '{a: 1}',
  '"',
  "'",
  '&a 1',
  '*a',
  '!!str 3',
  '1234567890123456789012345678901234567890',
];
const WORDS = [
  'batten',
  'arc',
  'bow',
  'spline',
  'ellipse',
  'line',
  'apex',
  'through',
  'rise',
  'radius',
  'ends',
  'held',
  'free',
  'natural',
  'strip',
  'from',
  'edges',
  'units',
  'in',
  'mm',
  'stock',
  'quantity',
  'allowance',
  'saw',
  'notes',
  'pair',
  '__proto__',
  'constructor',
  'toString',
];
const SIGNS = [
  '\t',
  '\r',
  '\0',
  '\u2028',
  '\ufeff',
  '🪵',
  '\u202e',
  ':',
  '- ',
  '#',
  '%',
  '@',
  '`',
  '|',
  '>',
  ',',
  ';',
  '\\',
];
const NUMBER = /-?\d+(?:[./ -]\d+)*/g;

type Change = (text: string, random: Random) => string;

const CHANGES: readonly Change[] = [
  (text, random) => withNumber(text, random, () => random.pick(NUMBERS)),
  (text, random) =>
    withNumber(text, random, () => (random.next() * 10 ** random.below(7)).toFixed(random.below(5))),
  (text, random) => withNumber(text, random, (old) => `-${old}`),
  (text, random) => withNumber(text, random, (old) => old.slice(0, -1)),
  (text, random) => withNumber(text, random, (old) => `${old}${random.below(10)}`),
  (text, random) => withLines(text, (lines) => lines.toSpliced(random.below(lines.length), 1)),
  (text, random) =>
    withLines(text, (lines) => lines.toSpliced(random.below(lines.length), 0, random.pick(lines))),
  (text, random) =>
    withLines(text, (lines) => {
      const i = random.below(lines.length);
      return lines.with(i, random.next() < 0.5 ? `  ${lines[i]}` : lines[i]!.slice(1));
    }),
  (text, random) =>
    text.replace(/\b[a-z]{2,8}\b/g, (word) => (random.next() < 0.05 ? random.pick(WORDS) : word)),
  (text, random) => insert(text, random, random.pick(SIGNS)),
  (text, random) => withLines(text, (lines) => withShoulder(lines, random)),
  (text, random) => text.slice(0, random.below(text.length + 1)),
  (text, random) => {
    const i = random.below(text.length);
    return text.slice(0, i) + text.slice(i + 1 + random.below(3));
  },
];

/** A text with one to three things wrong with it, or none: some changes leave a good job. */
export function mutated(text: string, random: Random): string {
  let found = text;
  for (let i = random.below(3); i >= 0; i--) found = random.pick(CHANGES)(found, random);
  return found;
}

function withNumber(text: string, random: Random, by: (old: string) => string): string {
  const places = [...text.matchAll(NUMBER)];
  if (places.length === 0) return text;
  const { index, 0: old } = random.pick(places);
  return text.slice(0, index) + by(old) + text.slice(index + old.length);
}

const STEP = /^ *- \{?[a-z]+: \[([^,\]]+),/;

/** A line before some step that stays at the station of the step before it. */
function withShoulder(lines: string[], random: Random): string[] {
  const steps = lines.flatMap((line, i) => (STEP.test(line) ? [i] : []));
  const nth = 1 + random.below(steps.length);
  const [before, at] = [steps[nth - 1], steps[nth]];
  if (before === undefined || at === undefined) return lines;
  const station = STEP.exec(lines[before]!)![1]!;
  const offset = (random.next() * 10 ** random.below(3)).toFixed(2);
  return lines.toSpliced(at, 0, `    - line: [${station}, ${offset}]`);
}

const withLines = (text: string, change: (lines: string[]) => string[]): string =>
  change(text.split('\n')).join('\n');

function insert(text: string, random: Random, sign: string): string {
  const i = random.below(text.length + 1);
  return text.slice(0, i) + sign + text.slice(i);
}
