// Pages of a PDF as canvases, for the pictures of the README and the docs.
import { readFileSync } from 'node:fs';
import { createCanvas } from '@napi-rs/canvas';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** What the pages lie on. */
export const DESK = '#e9e6df';

export const openPdf = (file) =>
  getDocument({ data: new Uint8Array(readFileSync(file)), verbosity: 0, disableFontFace: true }).promise;

/** A page, so many pixels a PDF point. */
export async function drawnPage(page, scale) {
  const viewport = page.getViewport({ scale });
  const canvas = createCanvas(Math.round(viewport.width), Math.round(viewport.height));
  await page.render({ canvas, canvasContext: canvas.getContext('2d'), viewport }).promise;
  return canvas;
}

/** An empty canvas of one colour, and what draws on it. */
export function coveredWith(colour, width, height) {
  const canvas = createCanvas(width, height);
  const context = canvas.getContext('2d');
  context.fillStyle = colour;
  context.fillRect(0, 0, width, height);
  return { canvas, context };
}
