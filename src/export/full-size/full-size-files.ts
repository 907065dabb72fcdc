import { inflate } from '../../curves/geometry/bounds.ts';
import { FIT_MM } from '../../curves/geometry/tolerance.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import type { Part } from '../../part/part.ts';
import { MAX_PAGE_MM } from '../../tiling/paper/paper-sizes.ts';
import { Fault } from '../../units/fault.ts';
import type { Unit } from '../../units/unit.ts';
import type { Drawing, Item, Stroke } from '../drawing/drawing.ts';
import { writeDxf } from '../writers/dxf.ts';
import { writeSvg } from '../writers/svg.ts';
import { drawnLines, drawnWords, type FullSize, fullSizeBounds, usedLayers } from './full-size.ts';

/** White round what is drawn, mm: a line on the very edge of a page loses half its width. */
const PAGE_MARGIN_MM = 5;

/** With the place of the part's origin, mm from the lower left corner of the page. */
export function fullSizePage(full: FullSize) {
  const { left, right, bottom, top } = inflate(fullSizeBounds(full), PAGE_MARGIN_MM);
  const origin = [-left, -bottom] as const;
  const strokes = drawnLines(full, origin).flatMap(({ line, copies }) => {
    const { layer, style, title, closed } = line;
    const drawn = copies.map((copy) => transformPath(line.path, copy));
    return drawn.map((path): Stroke => ({ type: 'stroke', layer, style, title, path, closed }));
  });
  const items = usedLayers(full).flatMap((layer): Item[] =>
    layer === 'text' ? drawnWords(full, origin) : strokes.filter((stroke) => stroke.layer === layer),
  );
  return { drawing: { width: right - left, height: top - bottom, items }, origin };
}

export function assertFitsPdfPage({ width, height }: Drawing): void {
  if (Math.max(width, height) <= MAX_PAGE_MM) return;
  throw new Fault(
    'draw.page-too-long',
    (mm) =>
      `the drawing is ${mm(width)} by ${mm(height)}, but a PDF page can be ${mm(MAX_PAGE_MM)} at most. ` +
      'Draw an .svg or a .dxf file, or print the part on several sheets.',
  );
}

export const fullSizeDxf = (part: Part, full: FullSize, as: { unit: Unit; splines: boolean }): string =>
  writeDxf(full, {
    ...as,
    about: [...describeFullSize(part), `Lengths in ${as.unit === 'in' ? 'inches' : 'mm'}.`],
  });

export const fullSizeSvg = (part: Part, { name }: FullSize, drawing: Drawing): string =>
  writeSvg(drawing, name, { bare: true, about: describeFullSize(part).join(' ') });

function describeFullSize({ name, edges }: Part): string[] {
  const kinds = new Set(edges.flatMap(({ runs }) => runs.map(({ kind }) => kind)));
  return [
    `${name}, full size.`,
    `Each curve is within ${FIT_MM} mm of the exact one. Curves: ${[...kinds].join(', ')}.`,
  ];
}
