import { describe, expect, test } from 'vitest';
import { parseJob } from '../../../src/job/parse/parse-job.ts';
import { makePart } from '../../../src/part/make-part.ts';
import { withWrittenWarnings } from '../../../src/shop/words/written-warnings.ts';

function told(lines: string) {
  const { job, places } = parseJob(
    `part: Rail\nunits: mm\n${lines}\nedges:\n  a:\n    - from: [0, 0]\n    - arc: [800, 0]\n      rise: 60\n`,
  );
  return withWrittenWarnings(makePart(job), places).warnings.map(({ code, key, message }) => ({
    code,
    key,
    line: Number(/^line (\d+), /.exec(message)?.[1]),
  }));
}

describe('withWrittenWarnings', () => {
  test.each([
    ['stock: {species: whte oak}', 'species.unknown'],
    ['stock: {species: beach}', 'species.unknown'],
    ['stock: {species: oak}', 'species.ambiguous'],
    ['stock: {species: bubinga}', 'species.unknown'],
  ])('%s is told once, at its line', (lines, code) => {
    expect(told(lines)).toEqual([{ code, key: 'stock.species', line: 3 }]);
  });

  test.each(['', 'stock: {species: white oak}', 'stock: {species: Beech}', 'notes: Łódź, ножка, ≤ 3 → ⌀ 8'])(
    'nothing is told of %j',
    (lines) => {
      expect(told(lines)).toEqual([]);
    },
  );

  test('a lost letter is told in each text that has it, with its key and line', () => {
    const lines =
      'notes: 木\nstock: {species: 白木}\njoints:\n  - hole: {at: 300, out: 20, diameter: 8, label: 孔 8}';
    expect(told(lines)).toEqual([
      { code: 'letter.lost', key: 'joints[0].label', line: 6 },
      { code: 'letter.lost', key: 'stock.species', line: 4 },
      { code: 'letter.lost', key: 'notes', line: 3 },
      { code: 'species.unknown', key: 'stock.species', line: 4 },
    ]);
  });

  test('a part made without a file is told the key alone', () => {
    const { job } = parseJob(
      'part: 木\nunits: mm\nedges:\n  a:\n    - from: [0, 0]\n    - arc: [800, 0]\n      rise: 60\n',
    );
    const [{ code, message } = { code: '', message: '' }] = withWrittenWarnings(makePart(job)).warnings;
    expect([code, message.slice(0, 5)]).toEqual(['letter.lost', 'part:']);
  });

  test('a hundred different letters make one short warning', () => {
    const many = Array.from({ length: 100 }, (_, i) => String.fromCodePoint(0x4e00 + i)).join('');
    const { job, places } = parseJob(
      `part: Rail\nunits: mm\nnotes: ${many}\nedges:\n  a:\n    - from: [0, 0]\n    - arc: [800, 0]\n      rise: 60\n`,
    );
    const { warnings } = withWrittenWarnings(makePart(job), places);
    expect(warnings.map(({ message }) => message.length < 300)).toEqual([true]);
  });
});
