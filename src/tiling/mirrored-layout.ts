import { type Affine, transformPoint } from '../curves/geometry/affine.ts';
import type { Point } from '../curves/geometry/point.ts';
import { transformPath } from '../curves/geometry/transform.ts';
import type { Part } from '../part/part.ts';
import { type LinesToTile, linesToTile } from './grid/lines-to-tile.ts';
import type { CheckDistance, Layout, RegisterMark, Sheet } from './layout.ts';
import { type LayOutOptions, layOutLines } from './tile.ts';

/** Turned over on the reference line: stations stay, offsets grow the other way. */
const MIRROR: Affine = [1, 0, 0, -1, 0, 0];
const mirrorPoint = (at: Point): Point => transformPoint(MIRROR, at);
const mirrorCheck = (check: CheckDistance): CheckDistance => {
  return { ...check, from: mirrorPoint(check.from), to: mirrorPoint(check.to) };
};

/** The suffix keeps the sheets of the two patterns apart. */
const mirroredName = (sheet: string): string => `${sheet}m`;

/**
 * Only the map to the paper (`toSheet`, `pageMatrix`) mirrors, so that stations and offsets keep their figures.
 * @throws Fault as `layOut` does
 */
export function layOutMirrored(part: Part, options: LayOutOptions): Layout {
  const layout = layOutLines(mirroredLines(linesToTile(part)), options);
  return {
    ...layout,
    mirrored: true,
    sheets: layout.sheets.map(mirroredSheet) as [Sheet, ...Sheet[]],
    crosses: layout.crosses.map(({ at, sheet, ...cross }) => {
      return { ...cross, at: mirrorPoint(at), sheet: mirroredName(sheet) };
    }),
    checks: layout.checks.map(mirrorCheck),
  };
}

const mirroredLines = (lines: LinesToTile): LinesToTile => ({
  all: transformPath(lines.all, MIRROR),
  finished: transformPath(lines.finished, MIRROR),
  extraPoints: lines.extraPoints.map(mirrorPoint),
  landmarks: lines.landmarks.map(mirrorPoint),
  checks: lines.checks.map(mirrorCheck),
  identity: [...lines.identity, 'mirrored'],
});

function mirroredSheet(sheet: Sheet): Sheet {
  const [a, b, c, d, e, f] = sheet.toSheet;
  const named = Object.entries(sheet.neighbours).map(([side, name]) => [side, mirroredName(name)]);
  const marks = sheet.marks.map(({ at, sheets: [one, other] }): RegisterMark => {
    return { at: mirrorPoint(at), sheets: [mirroredName(one), mirroredName(other)] };
  });
  const neighbours = Object.fromEntries(named);
  return { ...sheet, name: mirroredName(sheet.name), toSheet: [a, b, -c, -d, e, f], neighbours, marks };
}
