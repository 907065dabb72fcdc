import PDFDocument from 'pdfkit';
import type { CubicSegment, LineSegment } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { FIT_MM } from '../../curves/geometry/tolerance.ts';
import { arcToCubics } from '../../curves/geometry/transform.ts';
import type { Part } from '../../part/part.ts';
import type { Layout } from '../../tiling/layout.ts';
import { POINTS_PER_MM, pointsPerMm } from '../../tiling/paper/page-matrix.ts';
import { itemAt } from '../../units/checked.ts';
import { fontRuns } from '../../units/font-runs.ts';
import type { FontSubset } from '../../units/font-tables.ts';
import type { Clip, Item, Page, Stroke, Words } from '../drawing/drawing.ts';
import { LINE_APPEARANCES } from '../drawing/drawing.ts';
import { isFraction, splitFractions } from '../drawing/text-width.ts';
import { pairPages } from '../sheets/pattern-pages.ts';
import { drawOnLayers, type PdfInternals } from './pdf-layers.ts';

/** Source Sans 3 Regular as WOFF: one file for all letters, or each file when its letters are first met. */
export type FontSource = Uint8Array | ((subset: FontSubset) => Uint8Array);

/** How a pattern is written. */
export interface PdfOptions {
  /** Of the letters that are printed, and no others, the shapes are embedded. */
  readonly font: FontSource;
  /** Whether a cover goes before the sheets: the map, the taping steps, what to measure. */
  readonly cover: boolean;
  /** Of a pair whose halves differ, the mirrored pattern: its pages follow the first's. */
  readonly mirrored?: Layout | undefined;
  /** Told after every page how many are written. */
  readonly wrote?: ((pages: number) => void) | undefined;
}

const TRUE_SCALE = { x: 1, y: 1 };
/** How far a cubic may lie from an arc, mm: no more than a tenth is added to the fit's own error. */
const ARC_TO_CUBICS_MM = FIT_MM / 10;
/** Bold letters are stroked along their outline, a part of the type size: no second font is embedded. */
const BOLD_STROKE = 0.045;
/** The same job gives the same bytes, so the file carries no date of its own. */
const CREATION_DATE = new Date(Date.UTC(2000, 0, 1));

/** Takes the file's bytes, one chunk after the other. */
export type ByteSink = (chunk: Uint8Array) => void;

/** The pattern as a PDF at true size: a cover where wanted, then the sheets in the order of taping. */
export async function writePatternPdf(part: Part, layout: Layout, options: PdfOptions): Promise<Uint8Array> {
  return collectBytes((sink) => streamPatternPdf(part, layout, options, sink));
}

/** The same page by page: however long the pattern, no more than one page is held at a time. */
export function streamPatternPdf(part: Part, layout: Layout, options: PdfOptions, sink: ByteSink): void {
  const { cover, mirrored } = options;
  const layouts = mirrored ? [layout, mirrored] : [layout];
  const codes = layouts.map(({ code }) => code).join(' and ');
  streamPdf(pairPages(part, layouts, cover).pages, `${part.name}, ${codes}`, options, sink);
}

/** Pages at true size, each line a line or a cubic Bézier by its own control points. */
export async function writePdf(pages: Iterable<Page>, title: string, font: FontSource): Promise<Uint8Array> {
  return collectBytes((sink) => streamPdf(pages, title, { font }, sink));
}

/** The same page by page, as `streamPatternPdf` does. */
export function streamPdf(
  pages: Iterable<Page>,
  title: string,
  { font, wrote }: Pick<PdfOptions, 'font' | 'wrote'>,
  sink: ByteSink,
): void {
  const pdf = new (streamingDocument(sink))({
    autoFirstPage: false,
    pdfVersion: '1.7',
    lang: 'en',
    // The library takes the bytes of a font here; its types know the names of files only.
    font: fontFile(font, 'latin') as unknown as string,
    info: { Title: title, Creator: 'fairlath', Producer: 'fairlath', CreationDate: CREATION_DATE },
  });
  const names: string[] = [];
  for (const { name, drawing, stretch = TRUE_SCALE } of pages) {
    assertFinite(drawing);
    names.push(name);
    const { x, y } = pointsPerMm(stretch);
    pdf.addPage({ size: [drawing.width * x, drawing.height * y], margin: 0 });
    if (x !== y || x !== POINTS_PER_MM) pdf.scale(x / POINTS_PER_MM, y / POINTS_PER_MM);
    const page: PageSink = { pdf, font, height: drawing.height };
    drawOnLayers(pdf, drawing.items, (item) => draw(page, item));
    wrote?.(names.length);
  }
  setCatalog(pdf, names);
  pdf.end();
}

/** What the library writes goes straight on: it compresses at once, never waits, and a browser has no streams. */
const streamingDocument = (sink: ByteSink): typeof PDFDocument =>
  class extends PDFDocument {
    override push(chunk: Uint8Array | null): boolean {
      if (chunk !== null) sink(chunk);
      return true;
    }
  };

function collectBytes(write: (sink: ByteSink) => void): Uint8Array {
  const chunks: Uint8Array[] = [];
  write((chunk) => chunks.push(chunk));
  const all = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0));
  chunks.reduce((at, chunk) => {
    all.set(chunk, at);
    return at + chunk.length;
  }, 0);
  return all;
}

function assertFinite(value: unknown): void {
  if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`a drawing holds ${value}`);
  if (typeof value === 'object' && value !== null) Object.values(value).forEach(assertFinite);
}

/** Asks for no scaling (ISO 32000-1, 12.2) and the sheets' names (12.4.2); the scale bars are the real guard. */
function setCatalog(pdf: PDFKit.PDFDocument, names: readonly string[]): void {
  const { data } = (pdf as unknown as PdfInternals)._root;
  data.ViewerPreferences = pdf.ref({ PrintScaling: 'None', Duplex: 'Simplex', DisplayDocTitle: true });
  const labels = pdf.ref({ Nums: names.flatMap((name, i) => [i, { P: new String(name) }]) });
  labels.end(undefined as unknown as Uint8Array);
  data.PageLabels = labels;
}

const fontFile = (font: FontSource, subset: FontSubset): Uint8Array =>
  typeof font === 'function' ? font(subset) : font;

interface PageSink {
  readonly pdf: PDFKit.PDFDocument;
  readonly font: FontSource;
  readonly height: number;
}

function draw(page: PageSink, item: Item): void {
  if (item.type === 'stroke') drawStroke(page, item);
  else if (item.type === 'words') drawWords(page, item);
  else drawClip(page, item);
}

function drawClip(page: PageSink, item: Clip): void {
  const { x, y } = toPagePoint(page, { x: item.left, y: item.top });
  const [width, height] = [item.right - item.left, item.top - item.bottom];
  page.pdf.save();
  page.pdf.rect(x, y, width * POINTS_PER_MM, height * POINTS_PER_MM).clip();
  for (const inner of item.items) draw(page, inner);
  page.pdf.restore();
}

const toPagePoint = ({ height }: PageSink, { x, y }: Point): Point => ({
  x: x * POINTS_PER_MM,
  y: (height - y) * POINTS_PER_MM,
});

function drawStroke(page: PageSink, { style, path, closed, filled }: Stroke): void {
  const { pdf } = page;
  const pieces = path.flatMap((segment) =>
    segment.type === 'arc' ? arcToCubics(segment, ARC_TO_CUBICS_MM) : [segment],
  );
  const [first] = pieces;
  if (!first) return;
  const { width, dash, colour } = LINE_APPEARANCES[style];
  pdf.lineWidth(width * POINTS_PER_MM).lineJoin('round');
  if (dash) pdf.dash(dash.map((length) => length * POINTS_PER_MM) as unknown as number, {});
  else pdf.undash();
  const start = toPagePoint(page, first.type === 'line' ? first.from : first.controls[0]);
  pdf.moveTo(start.x, start.y);
  for (const piece of pieces) drawPiece(page, piece);
  if (closed) pdf.closePath();
  if (filled) pdf.fill(colour);
  else pdf.stroke(colour);
}

function drawPiece(page: PageSink, piece: LineSegment | CubicSegment): void {
  if (piece.type === 'line') {
    const { x, y } = toPagePoint(page, piece.to);
    page.pdf.lineTo(x, y);
    return;
  }
  const [, p, q, to] = piece.controls;
  const [a, b, c] = [toPagePoint(page, p), toPagePoint(page, q), toPagePoint(page, to)];
  page.pdf.bezierCurveTo(a.x, a.y, b.x, b.y, c.x, c.y);
}

function drawWords(page: PageSink, { text, at, size, anchor, turn, bold, fractions }: Words): void {
  const { pdf } = page;
  const { x, y } = toPagePoint(page, at);
  pdf.fillColor('#000000');
  const runs = fontRuns(text).flatMap(([subset, run]) =>
    (fractions === undefined ? [run] : splitFractions(run)).map(
      (part): SizedRun => [subset, part, fractions !== undefined && isFraction(part) ? fractions : size],
    ),
  );
  const widths = runs.map(([subset, run, mm]) =>
    inFont(page, subset, () => pdf.fontSize(mm * POINTS_PER_MM).widthOfString(run)),
  );
  const width = widths.reduce((sum, each) => sum + each, 0);
  let start = anchor === 'start' ? 0 : anchor === 'middle' ? -width / 2 : -width;
  pdf.save();
  pdf.translate(x, y);
  if (turn) pdf.rotate((-turn * 180) / Math.PI);
  if (bold)
    pdf
      .undash()
      .lineWidth(size * BOLD_STROKE * POINTS_PER_MM)
      .strokeColor('#000000');
  const look = {
    lineBreak: false,
    baseline: 'alphabetic',
    ...(bold && { fill: true, stroke: true }),
  } as const;
  for (const [i, [subset, run, mm]] of runs.entries()) {
    const from = start;
    inFont(page, subset, () => pdf.fontSize(mm * POINTS_PER_MM).text(run, from, 0, look));
    start += itemAt(widths, i);
  }
  pdf.restore();
}

type SizedRun = readonly [subset: FontSubset, run: string, mm: number];

/** A file of the font is read at its first letter; its name stays a key of the document. */
function inFont<T>({ pdf, font }: PageSink, subset: FontSubset, work: () => T): T {
  if (subset === 'latin' || typeof font !== 'function') return work();
  const latin = pdf as unknown as {
    _font: unknown;
    readonly _fontFamilies: Readonly<Record<string, unknown>>;
  };
  const kept = latin._font;
  if (!latin._fontFamilies[subset]) pdf.registerFont(subset, font(subset) as unknown as string);
  pdf.font(subset);
  const done = work();
  latin._font = kept;
  return done;
}
