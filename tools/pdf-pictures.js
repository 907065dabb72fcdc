// Pages of a printed pattern as pictures, for the README and the docs.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createCanvas } from '@napi-rs/canvas';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { cli } from './setup.js';

export const DESK = '#e9e6df';

export async function printJob(job, pdf) {
  const answer = execFileSync(process.execPath, [cli, 'print', job, '-o', pdf, '--json']);
  return { document: await openPdf(pdf), sheets: JSON.parse(String(answer)).sheets };
}

export const openPdf = (file) =>
  getDocument({ data: new Uint8Array(readFileSync(file)), verbosity: 0, disableFontFace: true }).promise;

export function coveredWith(colour, width, height) {
  const canvas = createCanvas(width, height);
  const context = canvas.getContext('2d');
  context.fillStyle = colour;
  context.fillRect(0, 0, width, height);
  return { canvas, context };
}

/** `scale` is in pixels a PDF point. */
export async function drawPage(document, number, scale) {
  const page = await document.getPage(number);
  const viewport = page.getViewport({ scale });
  const canvas = createCanvas(Math.round(viewport.width), Math.round(viewport.height));
  await page.render({ canvas, canvasContext: canvas.getContext('2d'), viewport }).promise;
  return canvas;
}

/** The sheets of `print --json` laid over each other where their register marks meet, as they are taped. */
export async function drawTaped(document, sheets, width) {
  const [, , , , left, base] = sheets[0].toPage;
  const pages = await Promise.all(sheets.map(({ page }) => document.getPage(page)));
  const places = sheets.map(({ toPage }) => ({ x: left - toPage[4], y: toPage[5] - base }));
  const right = Math.max(...places.map(({ x }, i) => x + pages[i].view[2]));
  const down = Math.max(...places.map(({ y }, i) => y + pages[i].view[3]));
  const scale = width / right;
  const { canvas, context } = coveredWith('white', width, Math.round(down * scale));
  context.globalCompositeOperation = 'multiply';
  for (const [i, { page }] of sheets.entries())
    context.drawImage(
      await drawPage(document, page, scale),
      Math.round(places[i].x * scale),
      Math.round(places[i].y * scale),
    );
  return canvas;
}

export function onDesk(drawn, gap) {
  const { canvas, context } = coveredWith(DESK, drawn.width + 2 * gap, drawn.height + 2 * gap);
  context.drawImage(drawn, gap, gap);
  return canvas;
}
