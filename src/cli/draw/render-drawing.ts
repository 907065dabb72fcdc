import { type Affine, enlarged, shifted } from '../../curves/geometry/affine.ts';
import { FIT_MM } from '../../curves/geometry/tolerance.ts';
import type { LayerName } from '../../export/drawing/drawing.ts';
import { boxOfFull, drawnLines, type FullSize, layersOf } from '../../export/full-size/full-size.ts';
import { type FullSizeFigures, figuresOfLines } from '../../export/full-size/full-size-accuracy.ts';
import { fullSizeDxf, fullSizeSvg } from '../../export/full-size/full-size-files.ts';
import { fullSizePage, mustFitPdf } from '../../export/full-size/full-size-page.ts';
import type { Part } from '../../part/part.ts';
import { POINTS_PER_MM } from '../../tiling/paper/page-matrix.ts';
import { MM_PER_INCH } from '../../units/unit.ts';
import { readFont } from '../files/load-font.ts';

export type Format = 'svg' | 'dxf' | 'pdf';

export interface FileOptions {
  readonly format: Format;
  /** Of a DXF's numbers. */
  readonly unit: 'mm' | 'in';
  readonly splines: boolean;
}

/** A drawing as it goes into a file, and what there is to say about it. */
export interface Drawn {
  /** Written when it is asked for: what is wrong with the drawing is told before. */
  readonly content: () => Promise<string | Uint8Array>;
  readonly figures: FullSizeFigures;
  readonly layers: readonly (FullSizeFigures & { readonly name: LayerName })[];
  /** Of the page, or of what is drawn in a DXF, mm. */
  readonly size: { readonly width: number; readonly height: number };
  /** Part mm → the file's own numbers, for each copy: mm with y down, points with y up, the DXF's unit. */
  readonly toFile: readonly Affine[];
}

/** @throws Fault `draw.page-too-long` */
export function draw(part: Part, full: FullSize, options: FileOptions): Drawn {
  const as = options.format === 'dxf' && !options.splines ? 'arcs' : 'curves';
  const lines = drawnLines(full);
  const layers = layersOf(full)
    .toReversed()
    .map((name) => ({
      name,
      ...figuresOfLines(
        lines.filter(({ line }) => line.layer === name),
        as,
      ),
    }));
  const figures = figuresOfLines(lines, as);
  if (figures.worst > FIT_MM) throw new Error(`the drawing came out ${figures.worst} mm off the line`);
  return {
    figures,
    layers,
    ...(options.format === 'dxf' ? asDxf(part, full, options) : asPage(part, full, options.format)),
  };
}

type Written = Pick<Drawn, 'content' | 'size' | 'toFile'>;

function asDxf(part: Part, full: FullSize, { unit, splines }: FileOptions): Written {
  const { left, right, bottom, top } = boxOfFull(full);
  return {
    content: async () => fullSizeDxf(part, full, { unit, splines }),
    size: { width: right - left, height: top - bottom },
    toFile: full.copies.map((copy) => enlarged(copy, unit === 'in' ? 1 / MM_PER_INCH : 1)),
  };
}

function asPage(part: Part, full: FullSize, format: 'svg' | 'pdf'): Written {
  const { drawing, origin } = fullSizePage(full);
  const { width, height } = drawing;
  const copies = full.copies.map((copy) => shifted(copy, ...origin));
  if (format === 'svg')
    return {
      content: async () => fullSizeSvg(part, full, drawing),
      size: { width, height },
      toFile: copies.map(([a, b, c, d, e, f]) => [a, -b, c, -d, e, height - f]),
    };
  mustFitPdf(drawing);
  return {
    content: async () => {
      const { writePdf } = await import('../../export/writers/pdf.ts');
      return writePdf([{ name: 'full size', drawing }], `${full.name}, full size`, readFont());
    },
    size: { width, height },
    toFile: copies.map((copy) => enlarged(copy, POINTS_PER_MM)),
  };
}
