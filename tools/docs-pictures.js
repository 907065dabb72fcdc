// npm run docs: runs the commands of docs/making-a-part.md and keeps the pictures that they draw in docs/pictures.
import { execFileSync } from 'node:child_process';
import { copyFileSync, cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createCanvas } from '@napi-rs/canvas';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { root, setUp } from './setup.js';

setUp();

const GAP = 12;
const DESK = '#e9e6df';
const pictures = join(root, 'docs', 'pictures');
/** The pages of a PDF that stand side by side in a picture, and how wide that is. */
const PAGES = [
  { picture: 'sheets.png', pdf: 'leg.pdf', pages: [1, 3], width: 1000 },
  { picture: 'gauge.png', pdf: 'gauge.pdf', pages: [2], width: 800 },
  { picture: 'card.png', pdf: 'leg-card.pdf', pages: [1], width: 640 },
];
const DRAWN = ['leg.svg', 'board.svg', 'check.svg', 'splayed.svg'];

/** The commands as a reader types them, with the samples at hand. */
function runCommands(folder) {
  const guide = readFileSync(join(root, 'docs', 'making-a-part.md'), 'utf8');
  const commands = [...guide.matchAll(/^```bash\n([\s\S]*?)^```/gm)].map(([, block]) => block).join('');
  const cli = join(root, 'bin', 'fairlath.js');
  cpSync(join(root, 'samples'), join(folder, 'samples'), { recursive: true });
  execFileSync('bash', ['-ec', `fairlath() { "${process.execPath}" "${cli}" "$@"; }\n${commands}`], {
    cwd: folder,
    env: { ...process.env, XDG_CONFIG_HOME: folder },
  });
}

async function drawPages(file, numbers, width) {
  const data = new Uint8Array(readFileSync(file));
  const document = await getDocument({ data, verbosity: 0, disableFontFace: true }).promise;
  const pages = await Promise.all(numbers.map((number) => document.getPage(number)));
  const wide = pages.reduce((sum, { view }) => sum + view[2], 0);
  const scale = (width - GAP * (pages.length + 1)) / wide;
  const tall = Math.max(...pages.map(({ view }) => view[3])) * scale;
  const canvas = createCanvas(width, Math.round(tall + 2 * GAP));
  const context = canvas.getContext('2d');
  context.fillStyle = DESK;
  context.fillRect(0, 0, canvas.width, canvas.height);
  let left = GAP;
  for (const page of pages) {
    const viewport = page.getViewport({ scale });
    const sheet = createCanvas(Math.round(viewport.width), Math.round(viewport.height));
    await page.render({ canvas: sheet, canvasContext: sheet.getContext('2d'), viewport }).promise;
    context.drawImage(sheet, Math.round(left), GAP);
    left += viewport.width + GAP;
  }
  return canvas.toBuffer('image/png');
}

const folder = mkdtempSync(join(tmpdir(), 'fairlath-'));
try {
  runCommands(folder);
  mkdirSync(pictures, { recursive: true });
  for (const name of DRAWN) copyFileSync(join(folder, name), join(pictures, name));
  for (const { picture, pdf, pages, width } of PAGES)
    writeFileSync(join(pictures, picture), await drawPages(join(folder, pdf), pages, width));
  console.log(`${pictures} is fresh.`);
} finally {
  rmSync(folder, { recursive: true });
}
