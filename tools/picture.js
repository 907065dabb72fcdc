// npm run picture: draws the README's pictures from the program's own output.
// npm run picture -- FILE.png: the sheets of the leg alone, into that file; a test compares them with the README's.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { coveredWith, DESK, drawnPage, openPdf } from './pdf-pages.js';
import { root, setUp } from './setup.js';

setUp();

const JOB = join(root, 'samples', 'hall-bench-leg.yaml');
const [only] = process.argv.slice(2);
const PICTURE = only ?? join(root, 'samples', 'hall-bench-leg.png');
const CURVATURE = join(root, 'samples', 'hall-bench-leg.svg');
const WIDTH = 1600;
const GAP = 24;

const folder = mkdtempSync(join(tmpdir(), 'fairlath-'));
const pdf = join(folder, 'leg.pdf');
const cli = join(root, 'bin', 'fairlath.js');
const { sheets } = JSON.parse(
  execFileSync(process.execPath, [cli, 'print', JOB, '-o', pdf, '--json'], { encoding: 'utf8' }),
);
const document = await openPdf(pdf);
const draw = async (number, scale) => drawnPage(await document.getPage(number), scale);

/** The sheets laid over each other where their register marks meet, as they lie when taped. */
async function taped(width) {
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
      await draw(page, scale),
      Math.round(places[i].x * scale),
      Math.round(places[i].y * scale),
    );
  return canvas;
}

const inner = WIDTH - 2 * GAP;
const strip = await taped(inner);
const coverWidth = Math.round(inner * 0.36);
const cover = await draw(1, coverWidth / 612);
const sheet = await draw(3, (inner - coverWidth - GAP) / 792);
const height = 3 * GAP + strip.height + Math.max(cover.height, sheet.height);
const { canvas, context } = coveredWith(DESK, WIDTH, height);
context.drawImage(strip, GAP, GAP);
context.drawImage(cover, GAP, 2 * GAP + strip.height);
context.drawImage(sheet, 2 * GAP + coverWidth, 2 * GAP + strip.height);
writeFileSync(PICTURE, canvas.toBuffer('image/png'));
rmSync(folder, { recursive: true });
if (only === undefined) {
  execFileSync(process.execPath, [cli, 'show', JOB, '--picture', CURVATURE]);
  const { drawPage } = await import('./page-picture.js');
  console.log(`${PICTURE}, ${CURVATURE} and ${await drawPage()} are fresh.`);
}
