import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { type Affine, transformPoint } from '../../src/curves/geometry/affine.ts';
import type { Point } from '../../src/curves/geometry/point.ts';
import { POINTS_PER_MM } from '../../src/tiling/paper/page-matrix.ts';

/** What an independent reader finds in a PDF. Points on a page in PDF points from its lower left corner. */
export interface ReadPdf {
  readonly pages: readonly ReadPage[];
  readonly labels: readonly string[] | null;
  readonly preferences: Readonly<Record<string, unknown>> | null;
  readonly info: Readonly<Record<string, unknown>>;
}

export interface ReadPage {
  readonly width: number;
  readonly height: number;
  readonly strokes: readonly ReadStroke[];
  readonly words: readonly ReadWords[];
}

export interface ReadStroke {
  /** mm */
  readonly width: number;
  readonly dashed: boolean;
  readonly steps: readonly { readonly type: 'move' | 'line' | 'curve'; readonly points: readonly Point[] }[];
}

export interface ReadWords {
  readonly text: string;
  /** Start of the baseline, in points. */
  readonly at: Point;
  readonly width: number;
  readonly size: number;
  /** The way the baseline runs, radians. */
  readonly turn: number;
}

export const openPdf = (bytes: Uint8Array) =>
  getDocument({ data: bytes.slice(), verbosity: 0, useSystemFonts: false, disableFontFace: true }).promise;

export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const pdf = await openPdf(bytes);
  const pages: ReadPage[] = [];
  for (let i = 1; i <= pdf.numPages; i++) pages.push(await readPage(await pdf.getPage(i)));
  const [labels, preferences, meta] = await Promise.all([
    pdf.getPageLabels(),
    pdf.getViewerPreferences(),
    pdf.getMetadata(),
  ]);
  return {
    pages,
    labels,
    preferences: preferences as Record<string, unknown> | null,
    info: meta.info as Record<string, unknown>,
  };
}

type PdfPage = Awaited<ReturnType<Awaited<ReturnType<typeof openPdf>>['getPage']>>;

async function readPage(page: PdfPage): Promise<ReadPage> {
  const [left, bottom, right, top] = page.view as [number, number, number, number];
  if (left !== 0 || bottom !== 0) throw new Error('a page does not start at 0, 0');
  const { fnArray, argsArray } = await page.getOperatorList();
  return {
    width: right,
    height: top,
    strokes: readStrokes(fnArray, argsArray),
    words: await readWords(page),
  };
}

interface State {
  readonly matrix: Affine;
  readonly width: number;
  readonly dashed: boolean;
}

function readStrokes(calls: readonly number[], args: readonly unknown[][]): ReadStroke[] {
  const strokes: ReadStroke[] = [];
  const saved: State[] = [];
  let state: State = { matrix: [1, 0, 0, 1, 0, 0], width: 1, dashed: false };
  calls.forEach((call, i) => {
    const given = args[i] ?? [];
    if (call === OPS.save) saved.push(state);
    if (call === OPS.restore) state = saved.pop() ?? state;
    if (call === OPS.transform) state = { ...state, matrix: after(state.matrix, given as unknown as Affine) };
    if (call === OPS.setLineWidth) state = { ...state, width: given[0] as number };
    if (call === OPS.setDash) state = { ...state, dashed: (given[0] as number[]).length > 0 };
    if (call === OPS.constructPath && given[0] !== OPS.endPath && given[1])
      strokes.push({
        width: state.width / POINTS_PER_MM,
        dashed: state.dashed,
        steps: readSteps((given[1] as [ArrayLike<number> | null])[0] ?? [], state.matrix),
      });
  });
  return strokes;
}

const after = (first: Affine, [a, b, c, d, e, f]: Affine): Affine => {
  const zero = transformPoint(first, { x: 0, y: 0 });
  const x = transformPoint(first, { x: a, y: b });
  const y = transformPoint(first, { x: c, y: d });
  const shift = transformPoint(first, { x: e, y: f });
  return [x.x - zero.x, x.y - zero.y, y.x - zero.x, y.y - zero.y, shift.x, shift.y];
};

/** The reader's own path codes: 0 move, 1 line, 2 curve, 4 close. */
function readSteps(data: ArrayLike<number>, matrix: Affine): ReadStroke['steps'] {
  const steps: ReadStroke['steps'][number][] = [];
  const kinds = { 0: 'move', 1: 'line', 2: 'curve' } as const;
  for (let i = 0; i < data.length; ) {
    const code = data[i++] as 0 | 1 | 2 | 4;
    if (code === 4) continue;
    const points: Point[] = [];
    for (let left = code === 2 ? 3 : 1; left > 0; left--)
      points.push(transformPoint(matrix, { x: data[i++] as number, y: data[i++] as number }));
    const type = kinds[code];
    if (!type) throw new Error(`unknown path code ${code}`);
    steps.push({ type, points });
  }
  return steps;
}

async function readWords(page: PdfPage): Promise<ReadWords[]> {
  const { items } = await page.getTextContent();
  return items.flatMap((item) => {
    if (!('str' in item) || item.str.trim() === '') return [];
    const [a, b, , , e, f] = item.transform as unknown as Affine;
    return [
      {
        text: item.str,
        at: { x: e, y: f },
        width: item.width,
        size: Math.hypot(a, b),
        turn: Math.atan2(b, a),
      },
    ];
  });
}
