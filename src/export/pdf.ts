import PDFDocument from 'pdfkit';
import { segmentStart } from '../curves/along.ts';
import type { CubicSegment, Segment } from '../curves/piece.ts';
import type { Point } from '../curves/point.ts';
import { arcToCubics } from '../curves/segment.ts';
import { FIT_MM } from '../curves/tolerance.ts';
import type { Part } from '../part/part.ts';
import type { Layout } from '../tiling/layout.ts';
import { POINTS_PER_MM, pointsPerMm } from '../tiling/page-matrix.ts';
import { type Clip, type Item, LINE_LOOKS, type Page, type Stroke, type Words } from './drawing.ts';
import { composePattern } from './patterns.ts';

export interface PdfOptions {
  /** Source Sans 3 Regular as WOFF or OpenType; part of it is embedded. */
  readonly font: Uint8Array;
  readonly cover: boolean;
}

const UNSTRETCHED = { x: 1, y: 1 };

/** How far a cubic may lie from an arc, mm: no more than a tenth is added to the fit's own error. */
const ARC_TO_CUBICS_MM = FIT_MM / 10;

/** The same job gives the same bytes, so the file carries no date of its own. */
const CREATION_DATE = new Date(Date.UTC(2000, 0, 1));

/** The pattern as a PDF at true size: a cover where wanted, then the sheets in the order of taping. */
export function writePatternPdf(part: Part, layout: Layout, options: PdfOptions): Promise<Uint8Array> {
  return writePdf(composePattern(part, layout, options.cover), `${part.name}, ${layout.code}`, options.font);
}

/** Pages at true size, each line a line or a cubic Bézier by its own control points. */
export async function writePdf(pages: readonly Page[], title: string, font: Uint8Array): Promise<Uint8Array> {
  for (const { drawing } of pages) refuseNotFinite(drawing);
  const pdf = new PDFDocument({
    autoFirstPage: false,
    pdfVersion: '1.7',
    lang: 'en',
    // The library takes the bytes of a font here; its types know the names of files only.
    font: font as unknown as string,
    info: { Title: title, Creator: 'fairlath', Producer: 'fairlath', CreationDate: CREATION_DATE },
  });
  const bytes = collect(pdf);
  setCatalog(
    pdf,
    pages.map(({ name }) => name),
  );
  for (const { drawing, stretch = UNSTRETCHED } of pages) {
    const { x, y } = pointsPerMm(stretch);
    pdf.addPage({ size: [drawing.width * x, drawing.height * y], margin: 0 });
    if (x !== y || x !== POINTS_PER_MM) pdf.scale(x / POINTS_PER_MM, y / POINTS_PER_MM);
    const sink: Sink = { pdf, height: drawing.height };
    for (const item of drawing.items) draw(sink, item);
  }
  pdf.end();
  return bytes;
}

function refuseNotFinite(value: unknown): void {
  if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`a drawing holds ${value}`);
  if (typeof value === 'object' && value !== null) Object.values(value).forEach(refuseNotFinite);
}

function collect(pdf: PDFKit.PDFDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    pdf.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    pdf.on('error', reject);
    pdf.on('end', () => resolve(joined(chunks)));
  });
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const chunk of chunks) {
    all.set(chunk, at);
    at += chunk.length;
  }
  return all;
}

/** What the library keeps to itself: the document's catalog. */
interface Catalog {
  readonly _root: { readonly data: Record<string, unknown> };
}

/**
 * Asks the reader to print unscaled and single-sided (ISO 32000-1, 12.2) and to call the pages by the
 * sheets' names (12.4.2). A reader may do otherwise: the scale bars on every sheet are the real guard.
 */
function setCatalog(pdf: PDFKit.PDFDocument, names: readonly string[]): void {
  const { data } = (pdf as unknown as Catalog)._root;
  data.ViewerPreferences = pdf.ref({ PrintScaling: 'None', Duplex: 'Simplex', DisplayDocTitle: true });
  const labels = pdf.ref({ Nums: names.flatMap((name, i) => [i, { P: new String(name) }]) });
  labels.end(undefined as unknown as Uint8Array);
  data.PageLabels = labels;
}

interface Sink {
  readonly pdf: PDFKit.PDFDocument;
  /** Of the page, mm: the library counts points from the top. */
  readonly height: number;
}

function draw(sink: Sink, item: Item): void {
  switch (item.type) {
    case 'stroke':
      drawStroke(sink, item);
      return;
    case 'words':
      drawWords(sink, item);
      return;
    case 'clip':
      drawClip(sink, item);
  }
}

function drawClip(sink: Sink, item: Clip): void {
  const { x, y } = onPage(sink, { x: item.left, y: item.top });
  const [width, height] = [item.right - item.left, item.top - item.bottom];
  sink.pdf.save();
  sink.pdf.rect(x, y, width * POINTS_PER_MM, height * POINTS_PER_MM).clip();
  for (const inner of item.items) draw(sink, inner);
  sink.pdf.restore();
}

const onPage = ({ height }: Sink, { x, y }: Point): Point => ({
  x: x * POINTS_PER_MM,
  y: (height - y) * POINTS_PER_MM,
});

function drawStroke(sink: Sink, { style, path, closed, filled }: Stroke): void {
  const { pdf } = sink;
  const first = path[0];
  if (!first) return;
  const { width, dash, colour } = LINE_LOOKS[style];
  pdf.lineWidth(width * POINTS_PER_MM).lineJoin('round');
  if (dash) pdf.dash(dash.map((length) => length * POINTS_PER_MM) as unknown as number, {});
  else pdf.undash();
  const start = onPage(sink, segmentStart(first));
  pdf.moveTo(start.x, start.y);
  for (const segment of path) drawSegment(sink, segment);
  if (closed) pdf.closePath();
  if (filled) pdf.fill(colour);
  else pdf.stroke(colour);
}

function drawSegment(sink: Sink, segment: Segment): void {
  switch (segment.type) {
    case 'line': {
      const { x, y } = onPage(sink, segment.to);
      sink.pdf.lineTo(x, y);
      return;
    }
    case 'arc':
      for (const cubic of arcToCubics(segment, ARC_TO_CUBICS_MM)) drawCubic(sink, cubic);
      return;
    case 'cubic':
      drawCubic(sink, segment);
  }
}

function drawCubic(sink: Sink, { controls }: CubicSegment): void {
  const [, a, b, c] = controls.map((control) => onPage(sink, control));
  if (a && b && c) sink.pdf.bezierCurveTo(a.x, a.y, b.x, b.y, c.x, c.y);
}

function drawWords(sink: Sink, { text, at, size, anchor, turn }: Words): void {
  const { pdf } = sink;
  const { x, y } = onPage(sink, at);
  pdf.fontSize(size * POINTS_PER_MM).fillColor('#000000');
  const width = pdf.widthOfString(text);
  const back = anchor === 'start' ? 0 : anchor === 'middle' ? width / 2 : width;
  pdf.save();
  pdf.translate(x, y);
  if (turn) pdf.rotate((-turn * 180) / Math.PI);
  pdf.text(text, -back, 0, { lineBreak: false, baseline: 'alphabetic' });
  pdf.restore();
}
