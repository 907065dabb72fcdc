import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { fairlath, freshFolder, LEG, RAIL, root } from '../run.ts';
import { expectWords, type Mistake, testMistakes } from '../words.ts';

const leg = join(root, LEG);
const rail = join(root, RAIL);

function json(args: readonly string[]) {
  const { code, out, err } = fairlath(['print', ...args, '--json'], freshFolder());
  expect({ code, err }).toEqual({ code: 0, err: '' });
  return JSON.parse(out);
}

const BULGE = [
  '--curve',
  'arc',
  '--chord',
  '100',
  '--rise',
  '95',
  '--units',
  'mm',
  '--story-stick',
  '--every',
  '50',
];
const ARCH = ['--curve', 'arc', '--chord', '28', '--rise', '8', '--form'];
const TOOLS = ['--template', '--bush', '17', '--bit', '12.7', '--paper', 'roll:610mm', '-o', 'tools.pdf'];

const MISTAKES: readonly Mistake[] = [
  [['print', LEG, '--story-stick', '--form'], 'command.two-prints'],
  [['print', LEG, '--story-stick', '--template'], 'command.two-prints'],
  [['print', LEG, '--template', '--form'], 'command.two-prints'],
  [['print', LEG, '--story-stick', '--half'], 'command.no-half'],

  [['print', LEG, '--bush', '5/8'], 'command.belongs'],
  [['print', LEG, '--from', 'chord'], 'command.belongs'],
  [['print', LEG, '--story-stick', '--plies', '4'], 'command.belongs'],
  [['print', LEG, '--template', '--bush', '1', '--edge', 'back'], 'command.belongs'],
  [['print', LEG, '--story-stick', '--turn', '90'], 'gauge.turn', '--turn'],
  [['print', LEG, '--story-stick', '--edge', 'front'], 'gauge.nothing-to-read', '--story-stick'],
  [['print', LEG, '--story-stick', '--every', '0.000001'], 'offsets.too-many-stations', '--every'],
  [['print', LEG, '--template'], 'template.guide', '--template'],
  [['print', LEG, '--template', '--bush', '1', '--bearing', '1'], 'template.guide', '--template'],
  [['print', LEG, '--story-stick', '--gauge'], 'command.repeated', '--story-stick'],
  [['print', LEG, '--template', '--bush', '5/8'], 'template.no-bit', '--template'],
  [['print', LEG, '--template', '--bush', '1/2', '--bit', '5/8'], 'template.bush', '--template'],
  [['print', LEG, '--form'], 'lamination.size', '--form'],
  [['print', LEG, '--form', '--plies', '1'], 'lamination.plies', '--plies'],
  [['print', LEG, '--form', '--plies', 'many'], 'form.plies', '--plies'],
  [['print', LEG, '--form', '--edge', 'front', '--plies', '4'], 'form.straight', '--form'],
  [['print', RAIL, '--form', '--plies', '4'], 'form.which-edge', '--form'],
  [['print', LEG, '--form', '--plies', '4', '--species', 'oak'], 'species.ambiguous', '--species'],
  [['print', LEG, '--form-side', 'below'], 'command.belongs'],
  [['print', LEG, '--form', '--plies', '4', '--form-side', 'below'], 'form.side', '--form-side'],
  [['print', ...ARCH, '--plies', '4', '--form-side', 'left'], 'form.side', '--form-side'],
  [['print', ...ARCH, '--thickness', '17', '--form-side', 'above'], 'lamination.no-room', '--form'],
];

describe('instead of the pattern print writes', () => {
  test.each([
    ['a story stick', ['--story-stick']],
    ['a template', ['--template', '--bush', '5/8', '--bit', '1/2']],
    ['a form', ['--form', '--thickness', '1']],
  ])('%s as a PDF of its own, with the same keys in its JSON', (_name, args) => {
    const folder = freshFolder();
    const { code, out } = fairlath(['print', leg, ...args, '-o', 'a.pdf', '--json'], folder);
    expect(code).toBe(0);
    const { sheets, checks, paper, code: pattern } = JSON.parse(out);
    expect(paper).toBe('letter');
    expect(pattern).toMatch(/^[2-9A-Z]{6}$/);
    expect(sheets[0]).toMatchObject({ name: expect.stringMatching(/^1A?$/), toPage: expect.any(Array) });
    expect(checks.length).toBeGreaterThanOrEqual(args[0] === '--story-stick' ? 0 : 3);
    const first = readFileSync(join(folder, 'a.pdf'));
    expect(fairlath(['print', leg, ...args, '-o', 'a.pdf'], folder).code).toBe(0);
    expect(readFileSync(join(folder, 'a.pdf'))).toEqual(first);
    expect(readdirSync(folder)).toEqual(['a.pdf']);
  });

  test('a gauge, with a warning where the edge passes a station twice', () => {
    const { code, out } = fairlath(['print', ...BULGE, '--json'], freshFolder());
    expect(code).toBe(0);
    expect(JSON.parse(out).warnings).toMatchObject([{ code: 'gauge.doubles-back' }]);
  });

  test('a gauge whose readings are within the tolerance when they are typed back', () => {
    const { gauge } = json([leg, '--story-stick', '--every', '2']);
    expect(gauge.strips.map(({ edge }: { edge: string }) => edge)).toEqual(['back']);
    const stations: { station: number; offset: number }[] = gauge.strips[0].stations;
    const readings = stations.flatMap(({ station, offset }) => ['--reading', `${station}mm=${offset}mm`]);
    const check = JSON.parse(fairlath(['check', leg, '--edge', 'back', ...readings, '--json']).out);
    expect(check.worst).toBeLessThan(1e-5);
    expect(check.verdict).toBe('within');
    expect(gauge.tolerance).toBeCloseTo(25.4 / 32, 12);
  });

  test('a template smaller by half of guide less bit: 3/4 and 1/2 in give 1/8', () => {
    const { template } = json([leg, '--template', '--bush', '3/4', '--bit', '1/2']);
    expect(template.inside).toBeCloseTo(25.4 / 8, 12);
    expect(json([rail, '--template', '--bearing', '12', '--bit', '12', '--half']).half).toBeDefined();
  });

  test('a form with its plies and the share that springs back', () => {
    const { form } = json([rail, '--form', '--edge', 'lower', '--thickness', '75', '--plies', '5']);
    expect(form).toMatchObject({ edge: 'lower', species: 'White oak', plies: 5, plyThickness: 15 });
    expect(form.springback.share).toBeCloseTo(1 / 25, 12);
    expect(form.line.askedRise).toBeCloseTo(150, 6);
  });

  test('a form on the side that is asked for, each ply as long as its place asks', () => {
    const [inside, outside] = ['above', 'below'].map(
      (side) => json([...ARCH, '--thickness', '1', '--form-side', side]).form,
    );
    expect(inside).toMatchObject({ formSide: 'above', plyLengths: expect.any(Array) });
    expect(outside.formSide).toBe('below');
    expect(inside.plyLengths).toHaveLength(inside.plies);
    expect(inside.plyLengths).toEqual(inside.plyLengths.toSorted((a: number, b: number) => b - a));
    expect(outside.plyLengths).toEqual(outside.plyLengths.toSorted((a: number, b: number) => a - b));
    expect(json([...ARCH, '--thickness', '1']).form).toEqual(inside);
  });

  test('forms of another side, ply, springback or curve under codes of their own', () => {
    const codes = [
      ['--plies', '8', '--thickness', '1'],
      ['--plies', '8', '--thickness', '1', '--form-side', 'below'],
      ['--plies', '8', '--thickness', '3/4'],
      ['--plies', '9', '--thickness', '1'],
      ['--plies', '9', '--thickness', '1', '--form-side', 'below'],
    ].map((how) => json([...ARCH, ...how]).code);
    expect(new Set(codes).size).toBe(codes.length);
    expect(json([...ARCH, '--plies', '8', '--thickness', '1', '--form-side', 'above']).code).toBe(codes[0]);
  });

  testMistakes(MISTAKES);

  test('their words are the reviewed ones', () =>
    expectWords('print-targets', [
      ['print', LEG, '--story-stick', '--every', '2'],
      ['print', ...BULGE],
      ['print', RAIL, ...TOOLS],
      ['print', RAIL, '--template', '--bearing', '12', '--bit', '12', '--half', '-o', 'half.pdf'],
      ['print', RAIL, '--form', '--edge', 'lower', '--thickness', '75', '--plies', '5', '-o', 'form.pdf'],
      ['print', RAIL, '--form', '--edge', 'lower', '--thickness', '300', '--plies', '2', '-o', 'thick.pdf'],
      ...MISTAKES.map(([args]) => args),
    ]));
});
