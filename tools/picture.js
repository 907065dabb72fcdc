// npm run picture: draws the README's pictures from the program's own output.
// npm run picture -- FILE.png: the sheets of the leg alone, into that file; a test compares them with the README's.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { coveredWith, DESK, drawPage, drawTaped, printJob } from './pdf-pictures.js';
import { cli, root, setUp } from './setup.js';

setUp();

const JOB = join(root, 'samples', 'hall-bench-leg.yaml');
const [only] = process.argv.slice(2);
const PICTURE = only ?? join(root, 'samples', 'hall-bench-leg.png');
const CURVATURE = join(root, 'samples', 'hall-bench-leg.svg');
const WIDTH = 1600;
const GAP = 24;

const folder = mkdtempSync(join(tmpdir(), 'fairlath-'));
const pdf = join(folder, 'leg.pdf');
const { document, sheets } = await printJob(JOB, pdf);
const inner = WIDTH - 2 * GAP;
const strip = await drawTaped(document, sheets, inner);
const coverWidth = Math.round(inner * 0.36);
const cover = await drawPage(document, 1, coverWidth / 612);
const sheet = await drawPage(document, 3, (inner - coverWidth - GAP) / 792);
const height = 3 * GAP + strip.height + Math.max(cover.height, sheet.height);
const { canvas, context } = coveredWith(DESK, WIDTH, height);
context.drawImage(strip, GAP, GAP);
context.drawImage(cover, GAP, 2 * GAP + strip.height);
context.drawImage(sheet, 2 * GAP + coverWidth, 2 * GAP + strip.height);
writeFileSync(PICTURE, canvas.toBuffer('image/png'));
rmSync(folder, { recursive: true });
if (only === undefined) {
  execFileSync(process.execPath, [cli, 'show', JOB, '--picture', CURVATURE]);
  const { drawBrowserPage } = await import('./page-picture.js');
  console.log(`${PICTURE}, ${CURVATURE} and ${await drawBrowserPage()} are fresh.`);
}
