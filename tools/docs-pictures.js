// npm run docs: runs the commands of docs/making-a-part.md and keeps the pictures that they draw in docs/pictures.
import { execFileSync } from 'node:child_process';
import { copyFileSync, cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { drawPage, drawTaped, onDesk, openPdf, printJob } from './pdf-pictures.js';
import { cli, root, setUp } from './setup.js';

setUp();

const GAP = 12;
const LEG = join(root, 'samples', 'hall-bench-leg.yaml');
const TAPED_WIDTH = 1000;
const pictures = join(root, 'docs', 'pictures');
/** A page of a PDF, and how wide it is drawn. */
const PAGES = [
  { picture: 'sheet.png', pdf: 'leg.pdf', page: 3, width: 800 },
  { picture: 'cover.png', pdf: 'leg.pdf', page: 1, width: 560 },
  { picture: 'gauge.png', pdf: 'gauge.pdf', page: 2, width: 800 },
  { picture: 'card.png', pdf: 'leg-card.pdf', page: 1, width: 560 },
];
const DRAWN = ['old-leg', 'leg', 'strip', 'board', 'saw', 'left', 'check', 'pair', 'splayed'];

/** The commands as a reader types them, with the samples at hand. */
function runCommands(folder) {
  const guide = readFileSync(join(root, 'docs', 'making-a-part.md'), 'utf8');
  const commands = [...guide.matchAll(/^```bash\n([\s\S]*?)^```/gm)].map(([, block]) => block).join('');
  cpSync(join(root, 'samples'), join(folder, 'samples'), { recursive: true });
  execFileSync('bash', ['-ec', `fairlath() { "${process.execPath}" "${cli}" "$@"; }\n${commands}`], {
    cwd: folder,
    env: { ...process.env, XDG_CONFIG_HOME: folder },
  });
}

const keep = (picture, drawn) =>
  writeFileSync(join(pictures, picture), onDesk(drawn, GAP).toBuffer('image/png'));

const folder = mkdtempSync(join(tmpdir(), 'fairlath-'));
try {
  runCommands(folder);
  mkdirSync(pictures, { recursive: true });
  for (const name of DRAWN) copyFileSync(join(folder, `${name}.svg`), join(pictures, `${name}.svg`));
  for (const { picture, pdf, page, width } of PAGES) {
    const document = await openPdf(join(folder, pdf));
    const [, , wide] = (await document.getPage(page)).view;
    keep(picture, await drawPage(document, page, (width - 2 * GAP) / wide));
  }
  const { document, sheets } = await printJob(LEG, join(folder, 'taped.pdf'));
  keep('taped.png', await drawTaped(document, sheets, TAPED_WIDTH));
  console.log(`${pictures} is fresh.`);
} finally {
  rmSync(folder, { recursive: true });
}
