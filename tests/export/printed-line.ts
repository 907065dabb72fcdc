import { evaluate } from '../../src/curves/geometry/evaluate.ts';
import { distance, type Point } from '../../src/curves/geometry/point.ts';
import { LINE_APPEARANCES, type LineStyle } from '../../src/export/drawing/drawing.ts';
import type { Part } from '../../src/part/part.ts';
import { finishedLine } from '../../src/part/part-lines.ts';
import type { ReadPage, ReadStroke } from './read-pdf.ts';

export const looksLike = (stroke: ReadStroke, style: LineStyle): boolean =>
  Math.abs(stroke.width - LINE_APPEARANCES[style].width) < 1e-3 &&
  stroke.dashed === (LINE_APPEARANCES[style].dash !== undefined);

/** The finished line of a page, as points along it and as read, in points on the page. */
export function cutPoints(page: ReadPage): Point[] {
  return page.strokes
    .filter(
      (stroke) =>
        looksLike(stroke, 'sheet-cut') && (stroke.steps.length > 2 || stroke.steps[1]?.type === 'curve'),
    )
    .flatMap(alongStroke);
}

function alongStroke({ steps }: ReadStroke): Point[] {
  const found: Point[] = [];
  let at = steps[0]!.points[0]!;
  for (const { type, points } of steps) {
    const end = points.at(-1)!;
    for (let i = 0; i <= 40; i++) {
      const u = i / 40;
      if (type === 'line') found.push({ x: at.x + (end.x - at.x) * u, y: at.y + (end.y - at.y) * u });
      if (type === 'curve')
        found.push(evaluate({ type: 'cubic', controls: [at, points[0]!, points[1]!, points[2]!] }, u));
    }
    at = end;
  }
  return found;
}

/** Chords of 1/400 of a 1,200 mm line of radius 700 mm sag 3²/8/700 = 0.0016 mm. */
const SAMPLES = 400;

/** Distance to the part's finished line. */
export function distanceToLine(part: Part): (at: Point) => number {
  const path = finishedLine(part.shape);
  const samples = path.map((segment) =>
    Array.from({ length: SAMPLES + 1 }, (_, i) => evaluate(segment, i / SAMPLES)),
  );
  return (at) =>
    Math.min(
      ...samples.map((points) => {
        const near = points.reduce(
          (best, point, i) => (distance(point, at) < distance(points[best]!, at) ? i : best),
          0,
        );
        const [a, b, c] = [
          points[Math.max(0, near - 1)]!,
          points[near]!,
          points[Math.min(SAMPLES, near + 1)]!,
        ];
        return Math.min(toChord(a, b, at), toChord(b, c, at));
      }),
    );
}

export function toChord(a: Point, b: Point, at: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const t = Math.min(1, Math.max(0, ((at.x - a.x) * dx + (at.y - a.y) * dy) / (dx * dx + dy * dy || 1)));
  return distance({ x: a.x + dx * t, y: a.y + dy * t }, at);
}
