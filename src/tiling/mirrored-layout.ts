import type { Affine } from '../curves/geometry/affine.ts';
import { transformPoint } from '../curves/geometry/affine.ts';
import type { Point } from '../curves/geometry/point.ts';
import { transformPath } from '../curves/geometry/transform.ts';
import type { Part } from '../part/part.ts';
import { type LinesToTile, linesToTile } from './grid/lines-to-tile.ts';
import type { Layout, Sheet } from './layout.ts';
import { type LayOutOptions, layOutLines } from './tile.ts';

/** The other face of the paper turned over on the reference line: stations stay, offsets grow the other way. */
const MIRROR: Affine = [1, 0, 0, -1, 0, 0];

/** Behind the name of every mirrored sheet, so that none is taken for one of the first pattern. */
const MIRRORED_SUFFIX = 'm';

/**
 * The mirror image of a part over its sheets: of a pair, the other one. The part stays as it is; its way to
 * the paper (`toSheet`, `pageMatrix`) mirrors it, so that stations and offsets are called by the same figures.
 *
 * @throws Fault as `layOut` does
 */
export function layOutMirrored(part: Part, options: LayOutOptions): Layout {
  const layout = layOutLines(mirroredLines(linesToTile(part)), options);
  const back = <T extends { readonly at: Point }>(mark: T): T => ({
    ...mark,
    at: transformPoint(MIRROR, mark.at),
  });
  return {
    ...layout,
    mirrored: true,
    sheets: layout.sheets.map(mirroredSheet) as [Sheet, ...Sheet[]],
    crosses: layout.crosses.map(back).map((cross) => ({ ...cross, sheet: mirroredName(cross.sheet) })),
    checks: layout.checks.map((check) => ({
      ...check,
      from: transformPoint(MIRROR, check.from),
      to: transformPoint(MIRROR, check.to),
    })),
  };
}

function mirroredLines(lines: LinesToTile): LinesToTile {
  const points = (all: readonly Point[]): Point[] => all.map((at) => transformPoint(MIRROR, at));
  return {
    all: transformPath(lines.all, MIRROR),
    finished: transformPath(lines.finished, MIRROR),
    extraPoints: points(lines.extraPoints),
    landmarks: points(lines.landmarks),
    checks: lines.checks.map((check) => ({
      ...check,
      from: transformPoint(MIRROR, check.from),
      to: transformPoint(MIRROR, check.to),
    })),
    identity: [...lines.identity, 'mirrored'],
  };
}

function mirroredSheet(sheet: Sheet): Sheet {
  const [a, b, c, d, e, f] = sheet.toSheet;
  return {
    ...sheet,
    name: mirroredName(sheet.name),
    toSheet: [a, b, -c, -d, e, f],
    neighbours: Object.fromEntries(
      Object.entries(sheet.neighbours).map(([side, name]) => [side, mirroredName(name)]),
    ),
    marks: sheet.marks.map(({ at, sheets }) => ({
      at: transformPoint(MIRROR, at),
      sheets: [mirroredName(sheets[0]), mirroredName(sheets[1])],
    })),
  };
}

const mirroredName = (sheet: string): string => `${sheet}${MIRRORED_SUFFIX}`;
