import parser, {
  type DxfParser,
  type ICircleEntity,
  type ILineEntity,
  type ILwpolylineEntity,
  type IPolylineEntity,
  type ISplineEntity,
  type ITextEntity,
} from 'dxf-parser';
import { distance, lerp, type Point, point } from '../../src/curves/geometry/point.ts';
import type { DrawnLine } from './drawn-line.ts';

/** The package is its reader, whatever its types say. */
const Reader = parser as unknown as typeof DxfParser;

/** What an independent reader finds in a DXF, in the file's own unit. */
export interface ReadDxf {
  readonly header: Readonly<Record<string, unknown>>;
  readonly layers: readonly string[];
  readonly lines: readonly ReadLine[];
  readonly texts: readonly { readonly layer: string; readonly text: string; readonly at: Point }[];
  readonly types: readonly string[];
}

export interface ReadLine {
  readonly type: string;
  readonly layer: string;
  readonly closed: boolean;
  readonly line: DrawnLine;
  /** Its ends as written. */
  readonly ends: readonly [Point, Point];
  readonly bulges: readonly number[];
}

export function readDxf(text: string): ReadDxf {
  const file = new Reader().parseSync(text);
  if (!file) throw new Error('no DXF');
  const lines: ReadLine[] = [];
  const texts: ReadDxf['texts'][number][] = [];
  for (const entity of file.entities) {
    const { type, layer } = entity;
    if (type === 'LINE') {
      const [from, to] = (entity as ILineEntity).vertices as unknown as [Point, Point];
      lines.push(readLine(type, layer, [{ ...from, bulge: 0 }, to], false));
    } else if (type === 'POLYLINE' || type === 'LWPOLYLINE') {
      const { vertices, shape } = entity as IPolylineEntity | ILwpolylineEntity;
      lines.push(readLine(type, layer, vertices, shape));
    } else if (type === 'SPLINE') lines.push(readSpline(layer, entity as ISplineEntity));
    else if (type === 'CIRCLE') lines.push(readCircle(layer, entity as ICircleEntity));
    else if (type === 'TEXT') {
      const { text: words, startPoint } = entity as ITextEntity;
      texts.push({ layer, text: words, at: startPoint });
    } else throw new Error(`an entity ${type} was not expected`);
  }
  return {
    header: file.header,
    layers: Object.keys(file.tables.layer.layers),
    lines,
    texts,
    types: file.entities.map(({ type }) => type),
  };
}

type Vertex = Point & { readonly bulge?: number };

function readLine(type: string, layer: string, vertices: readonly Vertex[], closed: boolean): ReadLine {
  const ends = [...vertices, ...(closed ? [vertices[0]!] : [])];
  const stretches = ends.slice(1).map((to, i) => bulged(ends[i]!, to, ends[i]!.bulge ?? 0));
  const bulges = ends.slice(0, -1).map(({ bulge = 0 }) => bulge);
  return { type, layer, closed, line: stretches, ends: [ends[0]!, ends.at(-1)!], bulges };
}

/** By its centre, as the format defines a bulge: the tangent of a quarter of the arc's angle. */
function bulged(from: Point, to: Point, bulge: number): (u: number) => Point {
  if (Math.abs(bulge) < 1e-12) return (u) => lerp(from, to, u);
  const side = (1 / bulge - bulge) / 4;
  const centre = point(
    (from.x + to.x) / 2 - side * (to.y - from.y),
    (from.y + to.y) / 2 + side * (to.x - from.x),
  );
  const [start, radius] = [Math.atan2(from.y - centre.y, from.x - centre.x), distance(centre, from)];
  return (u) => {
    const angle = start + 4 * Math.atan(bulge) * u;
    return point(centre.x + radius * Math.cos(angle), centre.y + radius * Math.sin(angle));
  };
}

function readCircle(layer: string, { center, radius }: ICircleEntity): ReadLine {
  const at = (u: number): Point =>
    point(center.x + radius * Math.cos(2 * Math.PI * u), center.y + radius * Math.sin(2 * Math.PI * u));
  return { type: 'CIRCLE', layer, closed: true, line: [at], ends: [at(0), at(0)], bulges: [] };
}

/** A clamped cubic B-spline by de Boor's algorithm, span by span. */
function readSpline(
  layer: string,
  { knotValues: knots, controlPoints, degreeOfSplineCurve }: ISplineEntity,
): ReadLine {
  const controls = controlPoints ?? [];
  if (degreeOfSplineCurve !== 3 || knots.length !== controls.length + 4) throw new Error('no cubic spline');
  const spans = knots.flatMap((knot, k) =>
    k >= 3 && k < controls.length && knots[k + 1]! > knot ? [k] : [],
  );
  const line = spans.map(
    (k) => (u: number) => deBoor(knots, controls, k, knots[k]! + (knots[k + 1]! - knots[k]!) * u),
  );
  return { type: 'SPLINE', layer, closed: false, line, ends: [controls[0]!, controls.at(-1)!], bulges: [] };
}

function deBoor(knots: readonly number[], controls: readonly Point[], k: number, t: number): Point {
  const d = [0, 1, 2, 3].map((j) => controls[j + k - 3]!);
  for (let r = 1; r <= 3; r++)
    for (let j = 3; j >= r; j--) {
      const [low, high] = [knots[j + k - 3]!, knots[j + 1 + k - r]!];
      d[j] = lerp(d[j - 1]!, d[j]!, (t - low) / (high - low));
    }
  return d[3]!;
}
