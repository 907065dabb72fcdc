import { arcPath } from '../../curves/arcs/arc-path.ts';
import type { BulgedArc } from '../../curves/arcs/biarc.ts';
import { type Affine, isReflection, transformPoint } from '../../curves/geometry/affine.ts';
import { pieceStart } from '../../curves/geometry/evaluate.ts';
import type { CubicSegment, Segment } from '../../curves/geometry/pieces/piece.ts';
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
  /** Sentences about the drawing, as comments. */
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
  for (const { line, copies } of drawnLines(full)) (splines ? drawCurves : drawArcs)(entities, line, copies);
  for (const words of drawnWords(full)) entities.words(words);
  const frame = { release, unit, lengths, layers: usedLayers(full), about, box: fullSizeBounds(full) };
  return formatTags(documentTags(frame, entities.tags, entities.handle));
}

/** Beyond rounding only a whole turn is one. */
const isFullCircle = (path: readonly { readonly type: string; readonly sweep?: number }[]): boolean =>
  path.length === 1 && Math.abs(Math.abs(path[0]?.sweep ?? 0) - 2 * Math.PI) < 1e-9;

function drawArcs(entities: DxfEntities, line: FullLine, copies: readonly Affine[]): void {
  const [first] = line.exact;
  if (first?.type === 'arc' && isFullCircle(line.exact)) {
    for (const copy of copies) drawCircle(entities, line, first, copy);
    return;
  }
  const arcs = line.arcs();
  for (const copy of copies)
    entities.polyline(
      line.layer,
      arcs.map((arc) => mapArc(arc, copy)),
      line.closed,
    );
}

function drawCircle(entities: DxfEntities, { layer }: FullLine, circle: Segment, copy: Affine): void {
  const mapped = transformSegment(circle, copy);
  if (mapped.type === 'arc') entities.circle(layer, mapped);
}

/** A copy keeps the arc's shape; one that is mirrored bulges the other way. */
function mapArc({ from, to, bulge }: BulgedArc, copy: Affine): BulgedArc {
  return {
    from: transformPoint(copy, from),
    to: transformPoint(copy, to),
    bulge: isReflection(copy) ? -bulge : bulge,
  };
}

function drawCurves(entities: DxfEntities, line: FullLine, copies: readonly Affine[]): void {
  const { path } = line;
  if (!path.some(({ type }) => type === 'cubic')) {
    drawArcs(entities, line, copies);
    return;
  }
  for (const copy of copies) {
    const mapped = transformPath(path, copy);
    const groups = groupByKind(mapped);
    groups.forEach((group, i) => {
      const next = groups[i + 1] ?? (line.closed ? groups[0] : undefined);
      const end = next?.[0] && pieceStart(next[0]);
      const cubics = group.filter((segment) => segment.type === 'cubic');
      if (cubics.length > 0) entities.spline(line.layer, withEndPoint(cubics, end));
      else {
        const arcs = arcPath(group, false, ARC_FIT_MM);
        entities.polyline(
          line.layer,
          end ? [...arcs.slice(0, -1), { ...arcs.at(-1)!, to: end }] : arcs,
          false,
        );
      }
    });
  }
}

/** Cubics together, and lines and arcs together. */
function groupByKind(path: readonly Segment[]): Segment[][] {
  const groups: Segment[][] = [];
  for (const segment of path) {
    const last = groups.at(-1);
    if (last && (last[0]?.type === 'cubic') === (segment.type === 'cubic')) last.push(segment);
    else groups.push([segment]);
  }
  return groups;
}

/** The last one ends in the very point where the next entity starts. */
function withEndPoint(cubics: readonly CubicSegment[], end: Point | undefined): CubicSegment[] {
  if (!end) return [...cubics];
  return cubics.map((cubic, i) => {
    const [a, b, c] = cubic.controls;
    return i === cubics.length - 1 ? { type: 'cubic', controls: [a, b, c, end] } : cubic;
  });
}
