import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { transformPoint } from '../../../src/curves/geometry/affine.ts';
import { readDxf } from '../../export/read-dxf.ts';
import { fairlath, freshFolder, LEG, root } from '../run.ts';
import { expectWords, type Mistake, testMistakes } from '../words.ts';

const leg = join(root, LEG);
const folder = freshFolder();
afterAll(() => rmSync(folder, { recursive: true }));

const draw = (...args: string[]) => fairlath(['draw', ...args], folder);
const text = (file: string): string => readFileSync(join(folder, file), 'latin1');

const MISTAKES: readonly Mistake[] = [
  [['draw', LEG, '-o', 'leg.png'], 'draw.format'],
  [['draw', LEG, '-o', LEG], 'draw.format'],
  [['draw', LEG, '--only', 'cut,sew'], 'draw.layer'],
  [['draw', LEG, '--only', 'parallel'], 'draw.nothing', '--only'],
  [['draw', LEG, '--only', 'board'], 'draw.nothing', '--only'],
  [['draw', LEG, '--splines'], 'draw.splines'],
  [['draw', LEG, '--units', 'in'], 'draw.units'],
  [['draw', LEG, '-o', 'a.dxf', '--units', 'ft'], 'draw.units'],
  [['draw', LEG, '--parallel', '0'], 'draw.parallel-zero', '--parallel'],
  [['draw', LEG, '--parallel', '-4'], 'parallel.no-room', '--parallel'],
  [['draw', LEG, '--nest', '--board', '3', '--board-width', '10'], 'draw.no-such-board', '--board'],
  [['draw', LEG, '--nest', '--board', 'two'], 'draw.board', '--board'],
  [['draw', LEG, '--nest', '--board-width', '2'], 'nesting.too-narrow', '--board-width'],
  [['draw', LEG, '--nest', '--mirror'], 'draw.mirror-nest'],
  [['draw', LEG, '--kerf', '3'], 'draw.nest'],
  [['draw', LEG, '--nest', '--parallel', '1/2', '--board-width', '10'], 'draw.parallels-cross', '--parallel'],
];

const LINE =
  'part: Strip\nunits: mm\nquantity: 2\nedges:\n  top: [from: [0, 0], {arc: [600, 0], rise: 75}]\n';

describe('fairlath draw', () => {
  test('without -o draws an SVG under the name of the job, and replaces it', () => {
    for (let i = 0; i < 2; i++) expect(draw(leg)).toMatchObject({ code: 0, err: '' });
    expect(text('hall-bench-leg.svg')).toMatch(/^<svg [^>]*width="[\d.]+mm"/);
  });

  test.each(['svg', 'dxf', 'pdf'])('writes a .%s and replaces no other', (ending) => {
    const file = `leg.${ending}`;
    expect(draw(leg, '-o', file)).toMatchObject({ code: 0, err: '' });
    expect(draw(leg, '-o', file).code).toBe(0);
    writeFileSync(join(folder, file), 'mine');
    expect(draw(leg, '-o', file)).toMatchObject({ code: 2, faults: [{ code: 'file.exists' }] });
    expect(text(file)).toBe('mine');
    expect(draw(leg, '-o', file, '--force').code).toBe(0);
  });

  test('its JSON has what is drawn, how exact, and where the part is in the file', () => {
    const { out } = draw(leg, '-o', 'answer.dxf', '--units', 'in', '--mirror', '--json');
    const answer = JSON.parse(out);
    expect(answer).toMatchObject({
      command: 'draw',
      part: 'Hall bench leg',
      units: 'mm',
      file: 'answer.dxf',
      format: 'dxf',
      warnings: [],
    });
    expect(answer.layers.map(({ name }: { name: string }) => name)).toEqual(['cut', 'saw', 'text', 'marks']);
    expect(answer.worstError).toBeGreaterThan(0);
    expect(answer.worstError).toBeLessThanOrEqual(answer.tolerance);
    const { lines } = readDxf(text('answer.dxf'));
    const cut = lines.find(({ layer }) => layer === 'cut')!;
    expect(cut.bulges).toHaveLength(answer.layers[0].lines + answer.layers[0].arcs);
    // The mirrored leg's lower left corner stands at the right, 34 in along.
    const corner = transformPoint(answer.toFile, { x: 0, y: 0 });
    expect(corner.x).toBeCloseTo(34, 9);
    expect(cut.ends[0].x).toBeCloseTo(34, 7);
  });

  test('draws a quick line, whose unit is that of a DXF too', () => {
    const quick = [
      '--curve',
      'arc',
      '--chord',
      '24',
      '--rise',
      '3',
      '--units',
      'in',
      '--only',
      'cut',
      '--json',
    ];
    const { out } = draw(...quick, '-o', 'quick.dxf');
    expect(JSON.parse(out)).toMatchObject({ arcs: 1, lines: 0, curves: 0 });
    const { header, lines } = readDxf(text('quick.dxf'));
    expect(header).toMatchObject({ $INSUNITS: 1 });
    expect(lines[0]!.ends[1].x).toBeCloseTo(24, 7);
    expect(draw(...quick, '-o', 'quick.svg')).toMatchObject({ code: 0, err: '' });
  });

  test('lays the whole quantity on its boards, and gives the place of each copy', () => {
    const boards = ['--nest', '--board-length', '36', '--json', '--board-width'];
    const narrow = JSON.parse(draw(leg, '-o', 'boards.dxf', ...boards, '4 1/2').out);
    expect(narrow.board).toMatchObject({ number: 1, of: 2, length: 914.4, width: 114.3 });
    expect(narrow.board.copies).toHaveLength(1);
    const { out } = draw(leg, '-o', 'board.dxf', ...boards, '10', '--kerf', '1/4');
    const answer = JSON.parse(out);
    expect(answer.board).toMatchObject({ number: 1, of: 1, length: 914.4, width: 254, gap: 6.35 });
    const cuts = readDxf(text('board.dxf')).lines.filter(({ layer }) => layer === 'cut');
    expect(cuts).toHaveLength(2);
    expect(cuts.flatMap(({ bulges }) => bulges)).toHaveLength(answer.layers[0].lines + answer.layers[0].arcs);
    cuts.forEach(({ ends: [start] }, i) => {
      const corner = transformPoint(answer.board.copies[i], { x: 0, y: 0 });
      expect(start.x).toBeCloseTo(corner.x, 6);
      expect(start.y).toBeCloseTo(corner.y, 6);
    });
    expect(answer.toFile).toEqual(answer.board.copies[0]);
  });

  testMistakes(MISTAKES);

  test('its words are the reviewed ones', () =>
    expectWords(
      'draw',
      [
        ['draw', '--help'],
        ['draw', LEG],
        ['draw', LEG, '-o', 'leg.dxf'],
        ['draw', 'line.yaml', '-o', 'line.svg'],
        ['draw', LEG, '-o', 'board.dxf', '--nest', '--board-width', '4 1/2', '--board-length', '36'],
        ['draw', LEG, '-o', 'board.dxf', '--nest', '--board-width', '10', '--board-length', '36'],
        ...MISTAKES.map(([args]) => args),
      ],
      { 'line.yaml': LINE },
    ));
});
