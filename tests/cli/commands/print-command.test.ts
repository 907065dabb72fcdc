import { copyFileSync, mkdirSync, readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { RAIL as MITERED_RAIL, LEG as SPLAYED_LEG } from '../../export/joinery.ts';
import { SAMPLES } from '../../part/jobs.ts';
import { fairlath, folderWith, freshFolder, LEG, RAIL, root } from '../run.ts';
import { expectWords, type Mistake, testMistakes } from '../words.ts';

const leg = join(root, LEG);
const json = (args: readonly string[], folder = freshFolder()) =>
  JSON.parse(fairlath(['print', ...args, '--json'], folder).out);
const WIDE = [
  'print',
  '--curve',
  'arc',
  '--chord',
  '30000',
  '--rise',
  '9000',
  '--units',
  'mm',
  '-o',
  'a.pdf',
];

const MISTAKES: readonly Mistake[] = [
  [['print', LEG, '--paper', 'leter', '-o', 'x.pdf'], 'paper.unknown', '--paper'],
  [['print', LEG, '--paper', '13x19', '-o', 'x.pdf'], 'paper.no-unit', '--paper'],
  [['print', LEG, '--paper', 'roll:24'], 'paper.no-unit', '--paper'],
  [['print', LEG, '--overlap', '190 mm', '-o', 'x.pdf'], 'layout.no-room', '--paper'],
  [['print', LEG, '--overlap', '1 mm', '-o', 'x.pdf'], 'layout.overlap', '--overlap'],
  [['print', LEG, '--overlap', 'wide', '-o', 'x.pdf'], 'length.not-a-number', '--overlap'],
  [['print', LEG, '--margin', '12abc', '-o', 'x.pdf'], 'length.unknown-unit', '--margin'],
  [['print', LEG, '--margin', '1/2,1/2'], 'command.margin', '--margin'],
  [['print', LEG, '--margin', '1,1,1,1,1'], 'command.margin', '--margin'],
  [['print', LEG, '--turn', 'sideways', '-o', 'x.pdf'], 'command.turn', '--turn'],
  [['print', LEG, '--max-sheets', 'all', '-o', 'x.pdf'], 'command.max-sheets', '--max-sheets'],
  [['print', LEG, '--max-sheets', '3', '-o', 'x.pdf'], 'layout.too-many-sheets', '--max-sheets'],
  [['print', LEG, '--printer', 'shp'], 'printer.unknown', '--printer'],
  [['print', LEG, '--printer', 'a', '--scale-down', '99%'], 'command.two-scales'],
  [['print', LEG, '--scale-across', '80%'], 'printer.scale', '--scale-across'],
  [['print', LEG, '--half'], 'half.not-symmetric', '--half'],
  [['print', LEG, '-o', 'leg.svg'], 'file.other-kind'],
  [['print', LEG, '-o', 'no/such/a.pdf'], 'file.no-folder'],
  [WIDE, 'layout.too-many-sheets', '--max-sheets'],
];

describe('fairlath print', () => {
  test.each(SAMPLES)('writes the sample %s as one PDF and nothing beside it', (name) => {
    const folder = freshFolder();
    const { code, err } = fairlath(['print', join(root, 'samples', name)], folder);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const file = name.replace('.yaml', '.pdf');
    expect(readFileSync(join(folder, file)).subarray(0, 5).toString()).toBe('%PDF-');
    expect(readdirSync(folder)).toEqual([file]);
  });

  test('the same job gives the same bytes, and replaces its own output', () => {
    const folder = freshFolder();
    fairlath(['print', leg, '-o', 'a.pdf'], folder);
    const first = readFileSync(join(folder, 'a.pdf'));
    expect(fairlath(['print', leg, '-o', 'a.pdf'], folder).code).toBe(0);
    expect(readFileSync(join(folder, 'a.pdf'))).toEqual(first);
  });

  test('its JSON names every sheet with its page and its map to the page', () => {
    const { sheets, checks, paper } = json([leg, '--paper', 'a4']);
    expect(paper).toBe('a4');
    expect(sheets[0]).toMatchObject({ name: '1A', page: 2 });
    for (const { toPage } of sheets) {
      const [a, b, c, d] = toPage;
      expect(a * d - b * c).toBeCloseTo((72 / 25.4) ** 2, 9); // 1/72 in: ISO 32000-1, 8.3.2.3
    }
    expect(checks.length).toBeGreaterThanOrEqual(2);
    for (const { from, to, length } of checks)
      expect(Math.hypot(to[0] - from[0], to[1] - from[1])).toBeCloseTo(length, 9);
  });

  test('the rail takes fewer sheets than a plain grid, and no fewer than the bound', () => {
    const { sheets, plainSheets, lowerBound } = json([join(root, RAIL)]);
    expect(lowerBound).toBeLessThanOrEqual(sheets.length);
    expect(sheets.length).toBeLessThan(plainSheets);
  });

  test('a pattern of many sheets is written with the option that its refusal names', () => {
    const folder = freshFolder();
    const [, option, count] = /(--max-sheets):.*limit to (\d+)/.exec(fairlath(WIDE, folder).err) ?? [];
    expect(readdirSync(folder)).toEqual([]);
    // No progress is shown where nobody watches.
    expect(fairlath([...WIDE, option ?? '', count ?? ''], folder)).toMatchObject({ code: 0, err: '' });
    expect(readdirSync(folder)).toEqual(['a.pdf']);
  });

  test('the job and the files of others are left alone', () => {
    const folder = folderWith({ 'letter.pdf': '%PDF-1.4 someone else’s letter' });
    copyFileSync(leg, join(folder, 'leg.yaml'));
    symlinkSync('leg.yaml', join(folder, 'link.yaml'));
    mkdirSync(join(folder, 'folder.pdf'));
    for (const [output, fault] of [
      ['leg.yaml', 'file.is-input'],
      ['link.yaml', 'file.is-input'],
      ['letter.pdf', 'file.exists'],
      ['folder.pdf', 'file.failed'],
    ] as const)
      expect(fairlath(['print', 'leg.yaml', '-o', output], folder)).toMatchObject({
        code: 2,
        err: expect.stringContaining(output),
        faults: [{ code: fault }],
      });
    expect(readFileSync(join(folder, 'letter.pdf'), 'utf8')).toContain('someone else');
    expect(readFileSync(join(folder, 'leg.yaml'))).toEqual(readFileSync(leg));
    expect(fairlath(['print', 'leg.yaml', '-o', 'letter.pdf', '--force'], folder).code).toBe(0);
  });

  test('--half gives its center line', () => {
    const { half } = json([join(root, RAIL), '--half']);
    expect(half.centreLine.map(([x]: [number]) => x)).toEqual([930, 930]);
  });

  test('a roll takes the pattern on one page', () => {
    const { sheets, paper } = json([leg, '--paper', 'roll:24in']);
    expect(paper).toBe('roll:24in');
    expect(sheets).toHaveLength(1);
  });

  testMistakes(MISTAKES);

  test('its words are the reviewed ones', () =>
    expectWords(
      'print',
      [
        ['print', '--help'],
        ...SAMPLES.map((name) => ['print', `samples/${name}`]),
        ['print', RAIL, '--half', '--no-cover'],
        ['print', LEG, '--paper', 'roll:24in', '--scale-across', '199.4mm'],
        ['print', 'splayed-leg.yaml'],
        ['print', 'mitered-rail.yaml'],
        ...MISTAKES.map(([args]) => args),
      ],
      { 'splayed-leg.yaml': SPLAYED_LEG, 'mitered-rail.yaml': MITERED_RAIL },
    ));
});

describe('fairlath print of a mirrored pair', () => {
  test('writes both patterns of a part with joints, each sheet with its map to the page', () => {
    const folder = folderWith({ 'leg.yaml': SPLAYED_LEG });
    const { file, sheets, code, mirrored } = json(['leg.yaml'], folder);
    expect(file).toBe('leg.pdf');
    expect(mirrored.code).not.toBe(code);
    const pages = sheets.map(({ page }: { page: number }) => page);
    expect(new Set(pages).size).toBe(sheets.length);
    for (const { name, toPage, ...sheet } of sheets) {
      const [a, b, c, d] = toPage;
      expect(Math.sign(a * d - b * c)).toBe(sheet.mirrored ? -1 : 1);
      expect(name.endsWith('m')).toBe(sheet.mirrored === true);
    }
    expect(sheets.some((sheet: { mirrored?: boolean }) => sheet.mirrored)).toBe(true);
  });

  test('writes one pattern of a part that is alike on both faces', () => {
    expect(json(['rail.yaml'], folderWith({ 'rail.yaml': MITERED_RAIL })).mirrored).toBeUndefined();
  });
});
