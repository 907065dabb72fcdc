import type { Item, LayerName } from '../drawing/drawing.ts';

export interface PdfInternals {
  readonly _root: { readonly data: Record<string, unknown> };
  readonly page: { readonly resources: { readonly data: Record<string, unknown> } };
}

type PdfLayers = Map<LayerName, PDFKit.PDFKitReference>;

/** Layers are optional content that a reader can show and hide (ISO 32000-1, 8.11): marked, named and listed. */
export function drawOnLayers(pdf: PDFKit.PDFDocument, items: readonly Item[], draw: (item: Item) => void) {
  const layers: PdfLayers = new Map();
  for (const item of items) {
    const layer = item.type === 'clip' ? undefined : item.layer;
    if (layer === undefined) {
      draw(item);
      continue;
    }
    if (!layers.has(layer)) layers.set(layer, newLayer(pdf, layer));
    pdf.addContent(`/OC /${layer} BDC`);
    draw(item);
    pdf.addContent('EMC');
  }
  if (layers.size > 0) registerLayers(pdf as unknown as PdfInternals & PDFKit.PDFDocument, layers);
}

function newLayer(pdf: PDFKit.PDFDocument, name: LayerName): PDFKit.PDFKitReference {
  const layer = pdf.ref({ Type: 'OCG', Name: new String(name) });
  layer.end(undefined as unknown as Uint8Array);
  return layer;
}

function registerLayers(pdf: PdfInternals & PDFKit.PDFDocument, layers: PdfLayers): void {
  const refs = [...layers.values()];
  pdf.page.resources.data.Properties = Object.fromEntries(layers);
  pdf._root.data.OCProperties = { OCGs: refs, D: { Order: refs, ON: refs } };
}
