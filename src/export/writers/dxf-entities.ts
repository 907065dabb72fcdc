import type { BulgedArc } from '../../curves/arcs/biarc.ts';
import type { ArcSegment, CubicSegment } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { lastOf } from '../../units/checked.ts';
import type { LayerName, Words } from '../drawing/drawing.ts';
import { CAP_HEIGHT } from '../drawing/text-width.ts';
import { type DxfRelease, FIRST_HANDLE, handleText, MODEL_SPACE } from './dxf-sections.ts';
import { type DxfLengths, dxfText, realTag, type Tag, tag } from './dxf-tags.ts';

/** Two knots or control points as near as this count as one: the format's own default. */
const KNOT_TOLERANCE = 1e-7;

type DxfVertex = Omit<BulgedArc, 'to'>;

export class DxfEntities {
  readonly tags: Tag[] = [];
  handle = FIRST_HANDLE;

  constructor(
    private readonly release: DxfRelease,
    private readonly lengths: DxfLengths,
  ) {}

  polyline(layer: LayerName, arcs: readonly BulgedArc[], closed: boolean): void {
    const kept = arcs.filter(({ from, to }) => this.pointText(from) !== this.pointText(to));
    const [first] = kept;
    if (!first) return;
    if (kept.length === 1 && first.bulge === 0) this.line(layer, first.from, first.to);
    else {
      const vertices: DxfVertex[] = closed ? kept : [...kept, { from: lastOf(kept).to, bulge: 0 }];
      if (this.release === '12') this.classicPolyline(layer, vertices, closed);
      else this.lightweightPolyline(layer, vertices, closed);
    }
  }

  circle(layer: LayerName, { centre, radius }: ArcSegment): void {
    this.startEntity('CIRCLE', layer, 'AcDbCircle');
    this.tags.push(...this.lengths.point3d(10, centre), this.lengths.tag(40, radius));
  }

  /** Each cubic is one span of the same parameter length. */
  spline(layer: LayerName, cubics: readonly CubicSegment[]): void {
    const controls = cubics.flatMap(({ controls: [from, ...rest] }, i) => (i === 0 ? [from, ...rest] : rest));
    const last = cubics.length;
    const knots = [0, ...cubics.flatMap((_, i) => [i, i, i]), last, last, last, last];
    this.startEntity('SPLINE', layer, 'AcDbSpline');
    this.tags.push(
      realTag(210, 0),
      realTag(220, 0),
      realTag(230, 1),
      tag(70, 8),
      tag(71, 3),
      tag(72, knots.length),
      tag(73, controls.length),
      tag(74, 0),
      realTag(42, KNOT_TOLERANCE),
      realTag(43, KNOT_TOLERANCE),
      ...knots.map((knot) => realTag(40, knot)),
      ...controls.flatMap((control) => this.lengths.point3d(10, control)),
    );
  }

  /** The size of words is that of their font; DXF wants the height of its capitals. */
  words({ text, at, size, anchor, turn = 0 }: Words): void {
    const anchors = { start: 0, middle: 1, end: 2 } as const;
    this.startEntity('TEXT', 'text', 'AcDbText');
    this.tags.push(
      ...this.lengths.point3d(10, at),
      this.lengths.tag(40, size * CAP_HEIGHT),
      tag(1, dxfText(text)),
      realTag(50, (turn * 180) / Math.PI),
      tag(7, 'STANDARD'),
      tag(72, anchors[anchor]),
      ...(anchor === 'start' ? [] : this.lengths.point3d(11, at)),
      ...(this.release === '12' ? [] : [tag(100, 'AcDbText')]),
    );
  }

  private line(layer: LayerName, from: Point, to: Point): void {
    this.startEntity('LINE', layer, 'AcDbLine');
    this.tags.push(...this.lengths.point3d(10, from), ...this.lengths.point3d(11, to));
  }

  private classicPolyline(layer: LayerName, vertices: readonly DxfVertex[], closed: boolean): void {
    this.startEntity('POLYLINE', layer);
    this.tags.push(tag(66, 1), ...this.lengths.point3d(10, { x: 0, y: 0 }), tag(70, closed ? 1 : 0));
    for (const { from, bulge } of vertices) {
      this.startEntity('VERTEX', layer);
      this.tags.push(...this.lengths.point3d(10, from), ...(bulge === 0 ? [] : [realTag(42, bulge)]));
    }
    this.startEntity('SEQEND', layer);
  }

  private lightweightPolyline(layer: LayerName, vertices: readonly DxfVertex[], closed: boolean): void {
    this.startEntity('LWPOLYLINE', layer, 'AcDbPolyline');
    this.tags.push(tag(90, vertices.length), tag(70, closed ? 1 : 0));
    for (const { from, bulge } of vertices)
      this.tags.push(...this.lengths.point2d(10, from), realTag(42, bulge));
  }

  private startEntity(type: string, layer: LayerName, subclass?: string): void {
    const modern = this.release !== '12';
    this.tags.push(tag(0, type));
    if (modern)
      this.tags.push(tag(5, handleText(this.handle++)), tag(330, MODEL_SPACE), tag(100, 'AcDbEntity'));
    this.tags.push(tag(8, layer));
    if (modern && subclass !== undefined) this.tags.push(tag(100, subclass));
  }

  private pointText({ x, y }: Point): string {
    return `${this.lengths.text(x)} ${this.lengths.text(y)}`;
  }
}
