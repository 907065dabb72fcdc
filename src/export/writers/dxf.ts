import { arcPath } from '../../curves/arcs/arc-path.ts';
import type { BulgedArc } from '../../curves/arcs/biarc.ts';
import { type Affine, isReflection, transformPoint } from '../../curves/geometry/affine.ts';
import { pieceStart } from '../../curves/geometry/evaluate.ts';
import type { ArcSegment, CubicSegment } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { transformPath, transformSegment } from '../../curves/geometry/transform.ts';
import { lastOf } from '../../units/checked.ts';
import { groupConsecutive } from '../../units/lists.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import type { FullLine, FullSize } from '../full-size/full-size.ts';
import { ARC_FIT_MM, drawnLines, drawnWords, fullSizeBounds, usedLayers } from '../full-size/full-size.ts';
import { DxfEntities } from './dxf-entities.ts';
import { type DxfRelease, documentTags } from './dxf-sections.ts';
import { DxfLengths, formatTags } from './dxf-tags.ts';

export interface DxfOptions {
  readonly unit: 'mm' | 'in';
  readonly splines: boolean;
  readonly about?: readonly string[];
}

/** Each line closes in its first point; `splines` draws its curved stretches as splines, end to end with the rest. */
export function writeDxf(full: FullSize, { unit, splines, about = [] }: DxfOptions): string {
  const lengths = new DxfLengths(unit === 'in' ? MM_PER_INCH : 1);
  const release: DxfRelease = splines ? '2000' : '12';
  const entities = new DxfEntities(release, lengths);
  for (const { line, copies } of drawnLines(full)) {
    const isCurved = splines && line.path.some(({ type }) => type === 'cubic');
    (isCurved ? drawCurves : drawArcs)(entities, line, copies);
  }
  for (const words of drawnWords(full)) entities.words(words);
  const frame = { release, unit, lengths, layers: usedLayers(full), about, box: fullSizeBounds(full) };
  return formatTags(documentTags(frame, entities.tags, entities.handle));
}

const isFullCircle = ({ sweep }: ArcSegment): boolean => Math.abs(Math.abs(sweep) - 2 * Math.PI) < 1e-9;

function drawArcs(entities: DxfEntities, line: FullLine, copies: readonly Affine[]): void {
  const { layer, exact, closed, arcs } = line;
  const [first, ...others] = exact;
  for (const copy of copies) {
    const circle = first?.type === 'arc' && others.length === 0 && transformSegment(first, copy);
    if (circle && circle.type === 'arc' && isFullCircle(circle)) entities.circle(layer, circle);
    else entities.polyline(layer, mapArcs(arcs(), copy), closed);
  }
}

const mapArcs = (arcs: readonly BulgedArc[], copy: Affine): BulgedArc[] =>
  arcs.map(({ from, to, bulge }) => ({
    from: transformPoint(copy, from),
    to: transformPoint(copy, to),
    bulge: isReflection(copy) ? -bulge : bulge,
  }));

function drawCurves(entities: DxfEntities, line: FullLine, copies: readonly Affine[]): void {
  const { layer, path, closed } = line;
  for (const copy of copies) {
    const groups = groupConsecutive(transformPath(path, copy), ({ type }) => type === 'cubic');
    for (const [i, [, group]] of groups.entries()) {
      const [, next] = groups[i + 1] ?? (closed ? groups[0] : undefined) ?? [];
      const end = next?.[0] && pieceStart(next[0]);
      const cubics = group.filter((segment) => segment.type === 'cubic');
      if (cubics.length > 0) entities.spline(layer, [...cubics.slice(0, -1), cubicTo(lastOf(cubics), end)]);
      else {
        const arcs = arcPath(group, false, ARC_FIT_MM);
        const last = lastOf(arcs);
        entities.polyline(layer, [...arcs.slice(0, -1), { ...last, to: end ?? last.to }], false);
      }
    }
  }
}

/** The last cubic must end in the very point where the next entity starts. */
const cubicTo = ({ controls: [a, b, c, d] }: CubicSegment, end: Point = d): CubicSegment => ({
  type: 'cubic',
  controls: [a, b, c, end],
});
