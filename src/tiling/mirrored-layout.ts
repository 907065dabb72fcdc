import type { Affine } from '../curves/geometry/affine.ts';
import { apply } from '../curves/geometry/affine.ts';
import type { Point } from '../curves/geometry/point.ts';
import { mapPath } from '../curves/geometry/transform.ts';
import type { Part } from '../part/part.ts';
import { type Lines, linesOf } from './grid/lines-to-tile.ts';
import type { Layout, Sheet } from './layout.ts';
import { type LayOutOptions, layOutLines } from './tile.ts';

/** The other face of the paper turned over on the reference line: stations stay, offsets grow the other way. */
const MIRROR: Affine = [1, 0, 0, -1, 0, 0];

/** Behind the name of every mirrored sheet, so that none is taken for one of the first pattern. */
const MARK = 'm';

/**
 * The mirror image of a part over its sheets: of a pair, the other one. The part stays as it is; its way to
 * the paper (`toSheet`, `pageMatrix`) mirrors it, so that stations and offsets are called by the same figures.
 *
 * @throws Fault as `layOut` does
 */
export function layOutMirrored(part: Part, options: LayOutOptions): Layout {
  const layout = layOutLines(mirroredLines(linesOf(part)), options);
  const back = <T extends { readonly at: Point }>(mark: T): T => ({ ...mark, at: apply(MIRROR, mark.at) });
  return {
    ...layout,
    mirrored: true,
    sheets: layout.sheets.map(mirroredSheet) as [Sheet, ...Sheet[]],
    crosses: layout.crosses.map(back).map((cross) => ({ ...cross, sheet: named(cross.sheet) })),
    checks: layout.checks.map((check) => ({
      ...check,
      from: apply(MIRROR, check.from),
      to: apply(MIRROR, check.to),
    })),
  };
}

function mirroredLines(lines: Lines): Lines {
  const points = (all: readonly Point[]): Point[] => all.map((at) => apply(MIRROR, at));
  return {
    all: mapPath(lines.all, MIRROR),
    finished: mapPath(lines.finished, MIRROR),
    also: points(lines.also),
    landmarks: points(lines.landmarks),
    checks: lines.checks.map((check) => ({
      ...check,
      from: apply(MIRROR, check.from),
      to: apply(MIRROR, check.to),
    })),
    identity: [...lines.identity, 'mirrored'],
  };
}

function mirroredSheet(sheet: Sheet): Sheet {
  const [a, b, c, d, e, f] = sheet.toSheet;
  return {
    ...sheet,
    name: named(sheet.name),
    toSheet: [a, b, -c, -d, e, f],
    neighbours: Object.fromEntries(
      Object.entries(sheet.neighbours).map(([side, name]) => [side, named(name)]),
    ),
    marks: sheet.marks.map(({ at, sheets }) => ({
      at: apply(MIRROR, at),
      sheets: [named(sheets[0]), named(sheets[1])],
    })),
  };
}

const named = (sheet: string): string => `${sheet}${MARK}`;
