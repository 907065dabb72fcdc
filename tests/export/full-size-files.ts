import { evaluate } from '../../src/curves/geometry/evaluate.ts';
import type { CubicSegment } from '../../src/curves/geometry/pieces/piece.ts';
import { lerp, type Point, point } from '../../src/curves/geometry/point.ts';
import type { LineStyle } from '../../src/export/drawing/drawing.ts';
import type { FullSize } from '../../src/export/full-size/full-size.ts';
import { fullSizePage } from '../../src/export/full-size/full-size-files.ts';
import { writePdf } from '../../src/export/writers/pdf.ts';
import { writeSvg } from '../../src/export/writers/svg.ts';
import { POINTS_PER_MM } from '../../src/tiling/paper/page-matrix.ts';
import type { DrawnLine } from './drawn-line.ts';
import { fontBytes } from './font.ts';
import { looksLike } from './printed-line.ts';
import { type ReadStroke, readPdf } from './read-pdf.ts';
import { readPath } from './read-svg-path.ts';

export const svgOf = (full: FullSize): string =>
  writeSvg(fullSizePage(full).drawing, full.name, { bare: true });

/** The group of one layer in an SVG, and the path data in it. */
export const groupOf = (svg: string, layer: string): string =>
  new RegExp(`<g id="${layer}">([^]*?)</g>`).exec(svg)?.[1] ?? '';

const dataIn = (group: string): string[] => [...group.matchAll(/ d="([^"]*)"/g)].map(([, d]) => d!);

/** The first line on a layer of an SVG read back, in the part's frame. */
export function svgLine(full: FullSize, layer: string, nth = 0): DrawnLine {
  const { drawing, origin } = fullSizePage(full);
  const steps = readPath(dataIn(groupOf(svgOf(full), layer))[nth]!, drawing.height);
  return steps.map(
    ({ at }) =>
      (u) =>
        point(at(u).x - origin[0], at(u).y - origin[1]),
  );
}

export const pdfOf = (full: FullSize): Promise<Uint8Array> =>
  writePdf([{ name: 'full size', drawing: fullSizePage(full).drawing }], full.name, fontBytes());

/** The first line of a style in a PDF read back, in the part's frame. */
export async function pdfLine(full: FullSize, style: LineStyle): Promise<DrawnLine> {
  const { origin } = fullSizePage(full);
  const page = (await readPdf(await pdfOf(full))).pages[0]!;
  const stroke = page.strokes.find((each) => looksLike(each, style))!;
  const toPart = ({ x, y }: Point): Point =>
    point(x / POINTS_PER_MM - origin[0], y / POINTS_PER_MM - origin[1]);
  return strokeLine(stroke).map((at) => (u) => toPart(at(u)));
}

function strokeLine({ steps }: ReadStroke): DrawnLine {
  let at = steps[0]!.points[0]!;
  return steps.slice(1).map(({ type, points }) => {
    const from = at;
    at = points.at(-1)!;
    if (type === 'line') return (u) => lerp(from, points[0]!, u);
    const controls = [from, ...points] as unknown as CubicSegment['controls'];
    return (u) => evaluate({ type: 'cubic', controls }, u);
  });
}
