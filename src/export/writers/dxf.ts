import { arcPath } from '../../curves/arcs/arc-path.ts';
import type { BulgedArc } from '../../curves/arcs/biarc.ts';
import { type Affine, isReflection, transformPoint } from '../../curves/geometry/affine.ts';
import { pieceStart } from '../../curves/geometry/evaluate.ts';
import type { ArcSegment, CubicSegment, Segment } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { transformPath, transformSegment } from '../../curves/geometry/transform.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import {
  ARC_FIT_MM,
  drawnLines,
  drawnWords,
  type FullLine,
  type FullSize,
  fullSizeBounds,
  usedLayers,
} from '../full-size/full-size.ts';
import { DxfEntities } from './dxf-entities.ts';
import { type DxfRelease, documentTags } from './dxf-sections.ts';
import { DxfLengths, formatTags } from './dxf-tags.ts';

export interface DxfOptions {
  /** The unit of the file's numbers. */
  readonly unit: 'mm' | 'in';
  /** Curved stretches as cubic splines, for readers that know them, instead of arcs. */
  readonly splines: boolean;
  readonly about?: readonly string[];
}

/**
 * A full size as DXF, in the part's own frame: x the station, y the offset. A line is one polyline of lines and
 * arcs, which every release has and which closes in its first point; `splines` draws its curved stretches as
 * splines instead, end to end with the rest. Layers by meaning; words as text.
 */
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

function drawArcs(
  entities: DxfEntities,
  { layer, exact, closed, arcs }: FullLine,
  copies: readonly Affine[],
): void {
  const [first, ...others] = exact;
  for (const copy of copies) {
    const circle = first?.type === 'arc' && others.length === 0 && transformSegment(first, copy);
    if (circle && circle.type === 'arc' && isFullCircle(circle)) entities.circle(layer, circle);
    else
      entities.polyline(
        layer,
        arcs().map((arc) => mapArc(arc, copy)),
        closed,
      );
  }
}

const mapArc = ({ from, to, bulge }: BulgedArc, copy: Affine): BulgedArc => ({
  from: transformPoint(copy, from),
  to: transformPoint(copy, to),
  bulge: isReflection(copy) ? -bulge : bulge,
});

function drawCurves(entities: DxfEntities, line: FullLine, copies: readonly Affine[]): void {
  const { layer, path, closed } = line;
  for (const copy of copies) {
    const groups = groupByKind(transformPath(path, copy));
    for (const [i, group] of groups.entries()) {
      const next = groups[i + 1] ?? (closed ? groups[0] : undefined);
      const end = next?.[0] && pieceStart(next[0]);
      const cubics = group.filter((segment) => segment.type === 'cubic');
      if (cubics.length > 0)
        entities.spline(
          layer,
          changeLast(cubics, (cubic) => cubicTo(cubic, end)),
        );
      else {
        const arcs = arcPath(group, false, ARC_FIT_MM);
        entities.polyline(
          layer,
          changeLast(arcs, (arc) => (end ? { ...arc, to: end } : arc)),
          false,
        );
      }
    }
  }
}

function groupByKind(path: readonly Segment[]): Segment[][] {
  const groups: Segment[][] = [];
  for (const segment of path) {
    const last = groups.at(-1);
    if (last && (last[0]?.type === 'cubic') === (segment.type === 'cubic')) last.push(segment);
    else groups.push([segment]);
  }
  return groups;
}

/** The last one must end in the very point where the next entity starts. */
const changeLast = <T>(list: readonly T[], change: (last: T) => T): T[] =>
  list.map((one, i) => (i === list.length - 1 ? change(one) : one));

const cubicTo = ({ controls: [a, b, c, d] }: CubicSegment, end: Point = d): CubicSegment => ({
  type: 'cubic',
  controls: [a, b, c, end],
});
