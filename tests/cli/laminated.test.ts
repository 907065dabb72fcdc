import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readPdf } from '../export/read-pdf.ts';
import { fairlath, folderWithSamples } from './run.ts';
import { expectWords, type Mistake, testMistakes } from './words.ts';

const ARCH = 'samples/garden-arch/arch.yaml';
const TRIAL = 'samples/garden-arch/trial-measured.csv';
const CHECK = ['check', ARCH, '--edge', 'inside', '--measured', TRIAL];

/** The radius and the half angle of the inside by its chord and rise (Euclid III.35). */
const RADIUS = 1900 ** 2 / (8 * 620) + 620 / 2;
const HALF = Math.asin(950 / RADIUS);

function json(...args: string[]) {
  const { code, out, err } = fairlath([...args, '--json'], folderWithSamples().path);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  return JSON.parse(out);
}

const wordsOf = async (file: string): Promise<string> =>
  (await readPdf(new Uint8Array(readFileSync(file)))).pages
    .flatMap(({ words }) => words.map(({ text }) => text))
    .join(' ');

const MISTAKES: readonly Mistake[] = [
  [['stock', ARCH, '--grain', '90'], 'command.laminated', '--grain'],
  [['stock', ARCH, '--picture', 'board.svg'], 'command.laminated', '--picture'],
  [['saw', ARCH, '--picture', 'saw.svg'], 'command.laminated', '--picture'],
  [['saw', ARCH, '--table', '16x16'], 'command.laminated', '--table'],
  [['draw', ARCH, '-o', 'arch.dxf', '--nest'], 'command.laminated', '--nest'],
  [['print', ARCH, '--form', '--plies', '9'], 'form.of-job', '--plies'],
  [['print', ARCH, '--form', '--form-side', 'above'], 'form.of-job', '--form-side'],
];

describe('a laminated part', () => {
  test('stock gives its plies by their length, and the board that they come from', () => {
    const { lamination, resawing, clamps, mass, ...rest } = json('stock', ARCH);
    expect(Object.keys(rest)).toEqual(['command', 'part', 'units', 'warnings']);
    expect(lamination).toMatchObject({
      edge: 'inside',
      formSide: 'below',
      plies: 14,
      thickness: 45,
      verdict: 'safe',
    });
    // The form has 196/195 of the bend, and the level feet reach farther out on the outer arc.
    const reach = Math.acos((RADIUS - 620) / (RADIUS + 45)) - HALF;
    const [onForm, turn] = [(RADIUS * 195) / 196, ((HALF + reach) * 2 * 196) / 195];
    (lamination.plyLengths as number[]).forEach((length, i) => {
      expect(length).toBeCloseTo((onForm + (i + 0.5) * (45 / 14)) * turn + 100, 6);
    });
    expect(lamination.strain).toBeCloseTo(45 / 14 / (2 * onForm), 12);
    expect(resawing).toMatchObject({
      plies: 28,
      width: 41,
      quarter: '50 mm',
      boards: { along: 1, across: 19, count: 2 },
    });
    expect(clamps.count).toBeGreaterThan(20);
    expect(mass).toBeGreaterThan(1);
  });

  test('saw and the card plan the plies, and name no blank, batten or blade for the curve', () => {
    expect(json('saw', ARCH)).toMatchObject({ resawing: { sawn: 45 / 14 + 1.5 }, ends: [{}, {}] });
    const card = json('card', ARCH, '-o', 'card.pdf');
    expect(card.cutList).toMatchObject({ plies: 28 });
    expect(card.order).toHaveLength(8);
    expect(card).not.toHaveProperty('strip');
    for (const command of ['stock', 'saw']) {
      const { out } = fairlath([command, ARCH], folderWithSamples().path);
      expect(out).not.toMatch(/blank|batten|saw line|runout/i);
    }
  });

  test.each(['card', 'print'])('no page of %s names a blank, and none has a saw line', async (command) => {
    const { path } = folderWithSamples();
    expect(fairlath([command, ARCH, '-o', 'arch.pdf'], path).code).toBe(0);
    const text = await wordsOf(join(path, 'arch.pdf'));
    expect(text).not.toMatch(/blank|WASTE|saw line|runout/i);
    if (command === 'print') expect(text).toMatch(/The part is laminated/);
  });

  test('its form comes from the job, whole or half, and each side of it has a code and words of its own', async () => {
    const { path } = folderWithSamples();
    const made = async (name: string, job: string, ...more: string[]) => {
      const { out, code } = fairlath(['print', job, '--form', '-o', name, '--json', ...more], path);
      expect(code).toBe(0);
      return { answer: JSON.parse(out), text: await wordsOf(join(path, name)) };
    };
    const below = await made('below.pdf', ARCH);
    const half = await made('half.pdf', ARCH, '--half');
    expect(below.answer.form).toMatchObject({ plies: 14, formSide: 'below', edge: 'inside' });
    expect(half.answer.sheets.length).toBeLessThan(below.answer.sheets.length);
    expect(half.text).toMatch(/FORM THIS SIDE/);
    expect(half.text).not.toMatch(/WASTE/);
    const formOfArc = (side: string) => {
      const arc = ['--curve', 'arc', '--chord', '28', '--rise', '4'];
      return json('print', ...arc, '--form', '--plies', '8', '-o', 'a.pdf', '--form-side', side);
    };
    const [above, under] = [formOfArc('above'), formOfArc('below')];
    expect(above.code).not.toBe(under.code);
    expect(above.form.formSide).toBe('above');
  });

  test('check reads an opened trial piece as springback, and gives the number to write', () => {
    const answer = json(...CHECK);
    expect(answer.verdict).toBe('outside');
    expect(answer.warnings.map(({ code }: { code: string }) => code)).toEqual([
      'check.steep',
      'check.springback',
    ]);
    const { rise, askedRise, formRise, lost, lostOnPart } = answer.springback;
    // The readings are those of the arc with 0.9914 of its bend, as long as the inside.
    const [radius, half] = [RADIUS / 0.9914, HALF * 0.9914];
    expect(Math.abs(rise - radius * (1 - Math.cos(half)))).toBeLessThan(0.5);
    expect(askedRise).toBeCloseTo(620, 6);
    expect(lost).toBeCloseTo(formRise - rise, 9);
    expect(lostOnPart).toBeCloseTo(620 - rise, 9);
    expect(
      json('check', 'samples/hall-bench-leg.yaml', '--edge', 'back', '--reading', '12=3 1/4'),
    ).not.toHaveProperty('springback');
  });

  testMistakes(MISTAKES);

  test('its words are the reviewed ones', () =>
    expectWords('laminated', [
      ['show', ARCH],
      ['stock', ARCH],
      ['saw', ARCH],
      ['saw', ARCH, '--height', '30'],
      ['print', ARCH, '--form', '--half', '-o', 'form.pdf'],
      ['card', ARCH, '-o', 'card.pdf'],
      CHECK,
      ...MISTAKES.map(([args]) => args),
    ]));
});
