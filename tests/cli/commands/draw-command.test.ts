import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { transformPoint } from '../../../src/curves/geometry/affine.ts';
import { readDxf } from '../../export/read-dxf.ts';
import { fairlath, freshFolder, root } from '../run.ts';

const leg = join(root, 'samples/hall-bench-leg.yaml');
const folder = freshFolder();
afterAll(() => rmSync(folder, { recursive: true }));

const draw = (...args: string[]) => fairlath(['draw', ...args], folder);
const text = (file: string): string => readFileSync(join(folder, file), 'latin1');

describe('fairlath draw', () => {
  test('without -o draws an SVG of the job’s name, and may do so again', () => {
    for (let i = 0; i < 2; i++) expect(draw(leg)).toMatchObject({ code: 0, err: '' });
    expect(text('hall-bench-leg.svg')).toMatch(/^<svg [^>]*width="[\d.]+mm"/);
    expect(text('hall-bench-leg.svg')).toContain(
      '<desc>Drawn by fairlath. Lengths in mm. Hall bench leg, full size.',
    );
  });

  test.each(['svg', 'dxf', 'pdf'])('writes a .%s, replaces its own and no other', (ending) => {
    const file = `leg.${ending}`;
    expect(draw(leg, '-o', file)).toMatchObject({ code: 0, err: '' });
    expect(draw(leg, '-o', file).code).toBe(0);
    writeFileSync(join(folder, file), 'mine');
    expect(draw(leg, '-o', file)).toMatchObject({ code: 2, err: expect.stringContaining('not one of ours') });
    expect(text(file)).toBe('mine');
    expect(draw(leg, '-o', file, '--force').code).toBe(0);
  });

  test('tells programs what is drawn, how true, and where the part lies in the file', () => {
    const { out } = draw(leg, '-o', 'told.dxf', '--units', 'in', '--mirror', '--json');
    const told = JSON.parse(out);
    expect(told).toMatchObject({
      command: 'draw',
      part: 'Hall bench leg',
      units: 'mm',
      file: 'told.dxf',
      format: 'dxf',
      warnings: [],
    });
    expect(told.layers.map(({ name }: { name: string }) => name)).toEqual(['cut', 'saw', 'text', 'marks']);
    expect(told.worstError).toBeGreaterThan(0);
    expect(told.worstError).toBeLessThanOrEqual(told.tolerance);
    const { lines } = readDxf(text('told.dxf'));
    const cut = lines.find(({ layer }) => layer === 'cut')!;
    expect(cut.bulges).toHaveLength(told.layers[0].lines + told.layers[0].arcs);
    // The mirrored leg's lower left corner stands at the right, 34 in along.
    const corner = transformPoint(told.toFile, { x: 0, y: 0 });
    expect(corner.x).toBeCloseTo(34, 9);
    expect(cut.ends[0].x).toBeCloseTo(34, 7);
  });

  test('draws a quick line; its unit is that of a DXF too', () => {
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

  test('lays all that are wanted on their boards, and tells programs where each lies', () => {
    const boards = ['--nest', '--board-width', '4 1/2', '--board-length', '36'];
    expect(draw(leg, '-o', 'boards.dxf', ...boards).out).toMatch(
      /Board 1 of 2, 36 in by 4 1\/2 in: 1 of the 2 wanted\. --board 2 draws the next\./,
    );
    const { out } = draw(leg, '-o', 'board.dxf', ...boards, '--board-width', '10', '--kerf', '1/4', '--json');
    const told = JSON.parse(out);
    expect(told.board).toMatchObject({ number: 1, of: 1, length: 914.4, width: 254, gap: 6.35 });
    const cuts = readDxf(text('board.dxf')).lines.filter(({ layer }) => layer === 'cut');
    expect(cuts).toHaveLength(2);
    expect(cuts.flatMap(({ bulges }) => bulges)).toHaveLength(told.layers[0].lines + told.layers[0].arcs);
    cuts.forEach(({ ends: [start] }, i) => {
      const corner = transformPoint(told.board.copies[i], { x: 0, y: 0 });
      expect(start.x).toBeCloseTo(corner.x, 6);
      expect(start.y).toBeCloseTo(corner.y, 6);
    });
    expect(told.toFile).toEqual(told.board.copies[0]);
  });

  test('says that more are wanted where one is drawn', () => {
    expect(draw(leg, '-o', 'one.svg').out).toContain('2 are wanted: --nest draws them on their board.');
    const line =
      'part: Strip\nunits: mm\nquantity: 2\nedges:\n  top: [from: [0, 0], {arc: [600, 0], rise: 75}]\n';
    writeFileSync(join(folder, 'line.yaml'), line);
    expect(draw(join(folder, 'line.yaml'), '-o', 'line.svg').out).toMatch(/\n2 are wanted\.\n$/);
  });

  test.each([
    [
      ['-o', 'leg.png'],
      /leg\.png: the ending says what to draw\. Name a file ending in \.svg, \.dxf or \.pdf/,
    ],
    [['--only', 'cut,sew'], /--only: "sew" is no layer\. Did you mean "saw"\?/],
    [['--only', 'parallel'], /needs --parallel/],
    [['--splines'], /--splines is for a DXF/],
    [['--units', 'in'], /--units is for the numbers of a DXF/],
    [['-o', 'a.dxf', '--units', 'ft'], /--units: "ft" is unknown\. Write mm or in/],
    [['--parallel', '0'], /Give a distance/],
    [['--parallel', '-4'], /^error: --parallel: a parallel 4 in away .* in/],
    [['-o', leg], /ending in \.svg/],
    [['--nest', '--board', '3', '--board-width', '10'], /--board: there is no board 3/],
    [['--nest', '--board', 'two'], /--board: "two" is no board\. Give its number/],
    [['--nest', '--board-width', '2'], /Take one of 3 \d+\/\d+ in/],
    [['--nest', '--mirror'], /--mirror: on a board/],
    [['--kerf', '3'], /--kerf is for copies on a board\. Add --nest/],
    [
      ['--nest', '--parallel', '1/2', '--board-width', '10'],
      /--parallel: the parallels of two copies would cross/,
    ],
  ])('%j is a mistake that is told, and nothing is written', (args, message) => {
    const answer = draw(leg, ...args);
    expect(answer).toMatchObject({ code: 2, out: '' });
    expect(answer.err).toMatch(message);
    expect(existsSync(join(folder, 'a.dxf'))).toBe(false);
  });
});
