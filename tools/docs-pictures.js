// npm run docs: runs the commands of docs/making-a-part.md and keeps the pictures that they draw in docs/pictures.
import { execFileSync } from 'node:child_process';
import { copyFileSync, cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { coveredWith, DESK, drawnPage, openPdf } from './pdf-pages.js';
import { root, setUp } from './setup.js';

setUp();

const GAP = 12;
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
  const document = await openPdf(file);
  const pages = await Promise.all(numbers.map((number) => document.getPage(number)));
  const wide = pages.reduce((sum, { view }) => sum + view[2], 0);
  const scale = (width - GAP * (pages.length + 1)) / wide;
  const tall = Math.max(...pages.map(({ view }) => view[3])) * scale;
  const { canvas, context } = coveredWith(DESK, width, Math.round(tall + 2 * GAP));
  let left = GAP;
  for (const page of pages) {
    context.drawImage(await drawnPage(page, scale), Math.round(left), GAP);
    left += page.getViewport({ scale }).width + GAP;
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
