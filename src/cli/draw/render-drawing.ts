import { type Affine, scaleMatrix, translate } from '../../curves/geometry/affine.ts';
import { FIT_MM } from '../../curves/geometry/tolerance.ts';
import type { LayerName } from '../../export/drawing/drawing.ts';
import { type FullSizeOptions, fullSize } from '../../export/full-size/compose-full-size.ts';
import { drawnLines, type FullSize, fullSizeBounds, usedLayers } from '../../export/full-size/full-size.ts';
import {
  type FullSizeFigures,
  measureDrawnLines,
  totalFigures,
} from '../../export/full-size/full-size-accuracy.ts';
import {
  assertFitsPdfPage,
  fullSizeDxf,
  fullSizePage,
  fullSizeSvg,
} from '../../export/full-size/full-size-files.ts';
import { fullSizeOnBoard } from '../../export/full-size/full-size-on-board.ts';
import type { Part } from '../../part/part.ts';
import { planStock } from '../../shop/stock/stock-plan.ts';
import { POINTS_PER_MM } from '../../tiling/paper/page-matrix.ts';
import { Fault } from '../../units/fault.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import { loadFont } from '../files/read-text.ts';
import { type BoardOptions, readStockOptions, requireNesting } from '../options/board-options.ts';
import { refuseForLaminated } from '../options/option-spec.ts';

interface DrawingFileOptions {
  readonly format: 'svg' | 'dxf' | 'pdf';
  readonly unit: 'mm' | 'in';
  readonly splines: boolean;
}

export interface RenderedDrawing {
  /** Made on request, so that mistakes are found before the work. */
  readonly content: () => Promise<string | Uint8Array>;
  readonly figures: FullSizeFigures;
  readonly layers: readonly (FullSizeFigures & { readonly name: LayerName })[];
  readonly size: { readonly width: number; readonly height: number };
  /** For each copy, from part mm to the numbers of the file: mm with y down, points with y up, the DXF's unit. */
  readonly toFile: readonly Affine[];
}

/** Draws a part full size in one format, and counts and measures what is drawn. */
export function renderDrawing(part: Part, full: FullSize, options: DrawingFileOptions): RenderedDrawing {
  const as = options.format === 'dxf' && !options.splines ? 'arcs' : 'curves';
  const lines = drawnLines(full);
  const layers = usedLayers(full)
    .toReversed()
    .map((name) => {
      const ofLayer = lines.filter(({ line }) => line.layer === name);
      return { name, ...measureDrawnLines(ofLayer, as) };
    });
  const figures = totalFigures(layers);
  if (figures.worst > FIT_MM) throw new Error(`the drawing came out ${figures.worst} mm off the line`);
  return {
    figures,
    layers,
    ...(options.format === 'dxf' ? dxfContent(part, full, options) : pageContent(part, full, options.format)),
  };
}

type DrawingContent = Pick<RenderedDrawing, 'content' | 'size' | 'toFile'>;

function dxfContent(part: Part, full: FullSize, options: DrawingFileOptions): DrawingContent {
  const { left, right, bottom, top } = fullSizeBounds(full);
  return {
    content: async () => fullSizeDxf(part, full, options),
    size: { width: right - left, height: top - bottom },
    toFile: full.copies.map((copy) => scaleMatrix(copy, options.unit === 'in' ? 1 / MM_PER_INCH : 1)),
  };
}

function pageContent(part: Part, full: FullSize, format: 'svg' | 'pdf'): DrawingContent {
  const { drawing, origin } = fullSizePage(full);
  const size = { width: drawing.width, height: drawing.height };
  const copies = full.copies.map((copy) => translate(copy, ...origin));
  if (format === 'svg')
    return {
      content: async () => fullSizeSvg(part, full, drawing),
      size,
      toFile: copies.map(([a, b, c, d, e, f]) => [a, -b, c, -d, e, size.height - f]),
    };
  assertFitsPdfPage(drawing);
  return {
    content: async () => {
      const { writePdf } = await import('../../export/writers/pdf.ts');
      return writePdf([{ name: 'full size', drawing }], `${full.name}, full size`, loadFont);
    },
    size,
    toFile: copies.map((copy) => scaleMatrix(copy, POINTS_PER_MM)),
  };
}

export type DrawnBoard = ReturnType<typeof composeDrawing>['board'];

/** The part alone or, with --nest, one board of the whole quantity laid out. */
export function composeDrawing(
  part: Part,
  options: BoardOptions & { readonly nest?: boolean; readonly mirror?: boolean; readonly board?: string },
  fullSizeOptions: Omit<FullSizeOptions, 'mirror'>,
) {
  const { nest, mirror = false } = options;
  if (!nest) return { full: fullSize(part, { ...fullSizeOptions, mirror }) };
  if (part.laminate) refuseForLaminated(options, ['nest']);
  const number = parseBoardNumber(options.board);
  const nesting = requireNesting(planStock(part, readStockOptions(part, options)), '--nest');
  const full = fullSizeOnBoard(part, nesting, { ...fullSizeOptions, board: number });
  const { board, boards, gap } = nesting;
  return { full, board: { number, of: boards, ...board, copies: full.copies.length, gap } };
}

function parseBoardNumber(typed = '1'): number {
  if (/^[1-9]\d{0,5}$/.test(typed)) return Number(typed);
  throw new Fault('draw.board', `"${typed}" is not the number of a board. Use 1, 2, 3 and so on.`, '--board');
}
