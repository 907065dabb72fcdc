import { describe, expect, test } from 'vitest';
import { invert, rotate, transformPoint } from '../../src/curves/geometry/affine.ts';
import { inflate } from '../../src/curves/geometry/bounds.ts';
import { flatten, segmentIntersectsBox } from '../../src/curves/geometry/flatten.ts';
import { distance, type Point, point } from '../../src/curves/geometry/point.ts';
import type { Part } from '../../src/part/part.ts';
import { sheetName } from '../../src/tiling/grid/grid.ts';
import { linesToCut } from '../../src/tiling/grid/lines-to-tile.ts';
import { REGISTER_REACH_MM } from '../../src/tiling/grid/seams.ts';
import type { Layout, Sheet } from '../../src/tiling/layout.ts';
import { pageMatrix } from '../../src/tiling/paper/page-matrix.ts';
import { parsePaper } from '../../src/tiling/paper/paper-sizes.ts';
import {
  DEFAULT_MARGIN_MM,
  DEFAULT_MAX_SHEETS,
  DEFAULT_OVERLAP_MM,
  type LayOutOptions,
  layOut,
  MAX_SHEETS,
  MIN_OVERLAP_MM,
} from '../../src/tiling/tile.ts';
import { Fault } from '../../src/units/fault.ts';
import { samplePart } from '../part/jobs.ts';
import { archTop, backLeg, block, shelfFront } from './parts.ts';
import { holds } from './shows.ts';

const LETTER = parsePaper('letter');

const options = (more: Partial<LayOutOptions> = {}): LayOutOptions => ({
  paper: LETTER,
  margin: DEFAULT_MARGIN_MM,
  overlap: DEFAULT_OVERLAP_MM,
  turn: 'auto',
  ...more,
});

const names = ({ sheets }: Layout): string[] => sheets.map(({ name }) => name);
describe('the grid', () => {
  test('a 600 × 180 mm part takes 3 Letter sheets lying on their side', () => {
    // Margin 10, overlap 10, a pad of 1 mm: ⌈(602 − 10) / 249.4⌉ = 3 across, ⌈(182 − 10) / 185.9⌉ = 1 down.
    // Upright: ⌈592 / 185.9⌉ = 4.
    const layout = layOut(block(600, 180), options({ margin: 10, overlap: 10 }));
    expect(layout.orientation).toBe('lying');
    expect(names(layout)).toEqual(['1A', '1B', '1C']);
  });

  test('a narrow part stood upright takes upright paper', () => {
    const layout = layOut(block(180, 600), options({ margin: 10, overlap: 10 }));
    expect(layout.orientation).toBe('upright');
    expect(names(layout)).toEqual(['1A', '2A', '3A']);
  });

  test('a part of one sheet has no seams and lies in its middle', () => {
    const { sheets, orientation } = layOut(block(100, 100), options());
    expect(orientation).toBe('upright');
    expect(sheets).toHaveLength(1);
    expect(sheets[0].neighbours).toEqual({});
    expect(sheets[0].marks).toEqual([]);
    const centre = transformPoint(sheets[0].toSheet, point(50, 50));
    expect(centre.x).toBeCloseTo(215.9 / 2, 9);
    expect(centre.y).toBeCloseTo(279.4 / 2, 9);
  });

  test('a sheet is named by row number from the top, then column letter from the left', () => {
    expect(sheetName({ row: 0, column: 0 })).toBe('1A');
    expect(sheetName({ row: 0, column: 1 })).toBe('1B');
    expect(sheetName({ row: 11, column: 1 })).toBe('12B');
  });

  test('columns after Z are lettered as in a spreadsheet', () => {
    expect([25, 26, 27, 51, 52, 701, 702].map((column) => sheetName({ row: 0, column }))).toEqual([
      '1Z',
      '1AA',
      '1AB',
      '1AZ',
      '1BA',
      '1ZZ',
      '1AAA',
    ]);
  });

  test('sheets that the line does not touch are left out', () => {
    const layout = layOut(archTop(), options({ paper: parsePaper('a4') }));
    expect(layout.rows * layout.columns).toBe(10);
    expect(names(layout)).toEqual(['1A', '1B', '1C', '1D', '1E', '2A', '2E']);
  });

  test('neighbouring windows overlap by the overlap, their cells meet in its middle', () => {
    const layout = layOut(backLeg(), options({ overlap: 18 }));
    const [a, b] = layout.sheets as unknown as [Sheet, Sheet];
    const across =
      transformPoint(invert(b.toSheet), { x: 0, y: 0 }).x -
      transformPoint(invert(a.toSheet), { x: 0, y: 0 }).x;
    expect(a.window.right - (across + b.window.left)).toBeCloseTo(18, 9);
    expect(a.cell.right).toBeCloseTo(across + b.cell.left, 9);
    expect(a.window.right - a.cell.right).toBeCloseTo(9, 9);
  });
});

describe('the turn', () => {
  test('a part is turned counter-clockwise on the paper', () => {
    const layout = layOut(block(180, 20), options({ turn: 90 }));
    const [a, b] = [point(0, 0), point(180, 0)].map((at) => transformPoint(layout.sheets[0].toSheet, at)) as [
      Point,
      Point,
    ];
    expect(b.x - a.x).toBeCloseTo(0, 9);
    expect(b.y - a.y).toBeCloseTo(180, 9);
    expect(layout.turnDeg).toBe(90);
  });

  test('a half turn takes as many sheets as none', () => {
    const [plain, turned] = [0, 180].map((turn) => layOut(backLeg(), options({ turn })));
    expect(turned?.sheets.length).toBe(plain?.sheets.length);
  });

  test('quarter turns are exact', () => {
    expect(rotate(90)).toEqual([0, 1, -1, 0, 0, 0]);
    expect(rotate(-90)).toEqual(rotate(270));
    expect(rotate(720)).toEqual([1, 0, -0, 1, 0, 0]);
  });
});

describe('register marks', () => {
  test('every seam has two, in the middle of the overlap, on both sheets', () => {
    const { sheets } = layOut(archTop(), options({ paper: parsePaper('a4') }));
    const seams = new Map<string, Point[]>();
    for (const sheet of sheets)
      for (const { at, sheets: pair } of sheet.marks) {
        expect(pair).toContain(sheet.name);
        const known = seams.get(pair.join()) ?? [];
        seams.set(pair.join(), [...known, at]);
        const { x, y } = transformPoint(sheet.toSheet, at);
        const { left, right, bottom, top } = sheet.cell;
        expect(Math.min(...[x - left, x - right, y - bottom, y - top].map(Math.abs))).toBeLessThan(1e-9);
      }
    // Six seams join seven sheets in a row bent twice; both sheets list both marks of each.
    expect(seams.size).toBe(6);
    for (const found of seams.values()) expect(found).toHaveLength(4);
  });

  test('they keep off the line to cut', () => {
    for (const part of [backLeg(), archTop(), shelfFront()]) {
      const { sheets } = layOut(part, options());
      const lines = flatten(linesToCut(part));
      for (const { at } of sheets.flatMap(({ marks }) => marks)) {
        const box = inflate({ left: at.x, right: at.x, bottom: at.y, top: at.y }, REGISTER_REACH_MM);
        expect(lines.some((line) => segmentIntersectsBox(line, box))).toBe(false);
      }
    }
  });
});

describe('measures to verify', () => {
  test('each edge is measured end to end, the pattern along both diagonals', () => {
    const { checks, crosses } = layOut(backLeg(), options());
    const lengths = checks.map(({ length }) => length);
    // By hand: 34 in = 863.6 mm; from (0, 3) to (34, 1 3/4) in: 25.4·√(34² + 1.25²) = 864.183 mm.
    expect(lengths[0]).toBeCloseTo(863.6, 9);
    expect(lengths[1]).toBeCloseTo(864.183, 3);
    expect(crosses.map(({ letter }) => letter)).toEqual(['P', 'Q', 'R', 'S']);
    expect(checks).toHaveLength(4);
    for (const { from, to, length } of checks) expect(length).toBeCloseTo(distance(from, to), 9);
  });

  test('each cross stands on the sheet that is said to carry it', () => {
    const { sheets, crosses } = layOut(archTop(), options());
    for (const { at, sheet } of crosses) {
      const found = sheets.find(({ name }) => name === sheet);
      expect(found && holds(found, 'cell', at)).toBe(true);
    }
  });
});

describe('the code', () => {
  test('the same job has the same code, another line or another layout has another', () => {
    const code = (part: Part, more: Partial<LayOutOptions> = {}): string => layOut(part, options(more)).code;
    expect(code(backLeg())).toBe(code(backLeg()));
    const codes = [
      code(backLeg()),
      code(backLeg(), { margin: 10 }),
      code(backLeg(), { turn: 180 }),
      code({ ...backLeg(), name: 'Arm' }),
      code({ ...backLeg(), saw: [] }),
    ];
    expect(new Set(codes).size).toBe(codes.length);
  });
});

describe('what cannot be laid out', () => {
  const faultOf = (part: Part, more: Partial<LayOutOptions>): Fault => {
    try {
      layOut(part, options(more));
    } catch (fault) {
      if (fault instanceof Fault) return fault;
      throw fault;
    }
    throw new Error('it was laid out');
  };

  test.each([
    [{ margin: -1 }, 'layout.margin'],
    [{ margin: Number.NaN }, 'layout.margin'],
    [{ margin: 60 }, 'layout.no-room'],
    [{ margin: 1e9 }, 'layout.no-room'],
    [{ overlap: MIN_OVERLAP_MM - 0.1 }, 'layout.overlap'],
    [{ overlap: Number.POSITIVE_INFINITY }, 'layout.overlap'],
    [{ overlap: 100 }, 'layout.no-room'],
    [{ turn: Number.NaN }, 'layout.turn'],
  ] as const)('%o', (more, code) => {
    expect(faultOf(backLeg(), more).code).toBe(code);
  });

  test('a margin of 0 and the least overlap are fine', () => {
    expect(layOut(backLeg(), options({ margin: 0, overlap: MIN_OVERLAP_MM })).sheets.length).toBeGreaterThan(
      0,
    );
  });

  test('no room is said with its numbers', () => {
    expect(faultOf(backLeg(), { margin: 60 }).message).toMatch(/60 mm.*95\.9 mm/);
  });

  test.each([
    ['long', block(60_000, 50)],
    ['wide and long', block(30_000, 12_000)],
  ])('a part so %s that it takes too many sheets says how many', (_, part) => {
    const { code, message } = faultOf(part, {});
    expect(code).toBe('layout.too-many-sheets');
    const asked = Number(/limit to (\d+)/.exec(message)?.[1]);
    expect(asked).toBeGreaterThan(DEFAULT_MAX_SHEETS);
    expect(layOut(part, options({ maxSheets: asked })).sheets.length).toBeLessThanOrEqual(asked);
  });

  test('a part of more sheets than anyone would tape up is refused at once', () => {
    expect(faultOf(block(1e12, 1e12), { maxSheets: MAX_SHEETS }).message).toMatch(/more than 10000 sheets/);
  });

  test.each([0, 1.5, -3, Number.NaN, MAX_SHEETS + 1])('no more than %d sheets', (maxSheets) => {
    expect(faultOf(backLeg(), { maxSheets }).code).toBe('layout.max-sheets');
  });

  test('a count that was not searched for is the most that the part may take', () => {
    const arch = samplePart('garden-arch-rail.yaml');
    const { message } = faultOf(arch, { maxSheets: 1 });
    const most = Number(/needs up to (\d+) sheets/.exec(message)?.[1]);
    expect(layOut(arch, options()).sheets.length).toBeLessThan(most);
  });

  test('one sheet fewer than the pattern takes is too few', () => {
    expect(faultOf(backLeg(), { maxSheets: 3 }).message).toMatch(/needs 4 sheets.*limit to 4/);
    expect(layOut(backLeg(), options({ maxSheets: 4 })).sheets).toHaveLength(4);
  });
});

test('the page matrix maps the part to PDF points: 25.4 mm are 72 points', () => {
  // ISO 32000-1, 8.3.2.3: the unit of default user space is 1/72 in.
  const { sheets } = layOut(backLeg(), options());
  const matrix = pageMatrix(sheets[0]);
  const [a, b] = [transformPoint(matrix, point(0, 0)), transformPoint(matrix, point(25.4, 0))];
  expect(b.x - a.x).toBeCloseTo(72, 9);
});
