// npm run docs: runs the commands of the docs and keeps the pictures that they draw, and the sketches beside them.
// node tools/docs-pictures.js FOLDER: into FOLDER/pictures; a test compares them with those in docs/pictures.
import { execFileSync } from 'node:child_process';
import { copyFileSync, cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { drawPage, drawTaped, onDesk, openPdf, printJob } from './pdf-pictures.js';
import { cli, root, setUp } from './setup.js';

const GAP = 12;
const LEG = join(root, 'samples', 'hall-bench-leg.yaml');
const TAPED_WIDTH = 1000;
/** The pages whose commands draw pictures, each with the pictures that it draws. */
const DRAWN = {
  'making-a-part.md': ['old-leg', 'leg', 'batten', 'board', 'saw', 'left', 'check', 'pair', 'splayed'],
  'a-metric-part.md': ['bracket', 'bracket-board', 'bracket-check'],
};
/** A page of a PDF that the commands of making-a-part.md write, and how wide it is drawn. */
const PAGES = [
  { picture: 'sheet.png', pdf: 'leg.pdf', page: 3, width: 740 },
  { picture: 'cover.png', pdf: 'leg.pdf', page: 1, width: 560 },
  { picture: 'stick.png', pdf: 'stick.pdf', page: 1, width: 480 },
  { picture: 'card.png', pdf: 'leg-card.pdf', page: 1, width: 560 },
  { picture: 'roll.png', pdf: 'leg-roll.pdf', page: 2, width: 800 },
];

/** The commands of a page as a reader types them, with the samples at hand. */
function runCommands(name, folder) {
  const page = readFileSync(join(root, 'docs', name), 'utf8');
  const commands = [...page.matchAll(/^```bash\n([\s\S]*?)^```/gm)].map(([, block]) => block).join('');
  cpSync(join(root, 'samples'), join(folder, 'samples'), { recursive: true });
  execFileSync('bash', ['-ec', `fairlath() { "${process.execPath}" "${cli}" "$@"; }\n${commands}`], {
    cwd: folder,
    env: { ...process.env, XDG_CONFIG_HOME: folder },
  });
}

const save = (file, drawn) => writeFileSync(file, onDesk(drawn, GAP).toBuffer('image/png'));

async function drawPages(folder, pictures) {
  for (const { picture, pdf, page, width } of PAGES) {
    const document = await openPdf(join(folder, pdf));
    const [, , wide] = (await document.getPage(page)).view;
    save(join(pictures, picture), await drawPage(document, page, (width - 2 * GAP) / wide));
  }
  const { document, sheets } = await printJob(LEG, join(folder, 'taped.pdf'));
  save(join(pictures, 'taped.png'), await drawTaped(document, sheets, TAPED_WIDTH));
}

const [to = join(root, 'docs')] = process.argv.slice(2);
// A test asks for another folder: to build beside it would pull the program away from under the other tests.
if (to === join(root, 'docs')) setUp();
// The sketches use the built library, which is there from here on.
const { drawSketches } = await import('./docs-sketches.js');
const pictures = join(to, 'pictures');
mkdirSync(pictures, { recursive: true });
const folder = mkdtempSync(join(tmpdir(), 'fairlath-'));
try {
  for (const [page, names] of Object.entries(DRAWN)) {
    runCommands(page, folder);
    for (const name of names) copyFileSync(join(folder, `${name}.svg`), join(pictures, `${name}.svg`));
  }
  await drawPages(folder, pictures);
  drawSketches(join(to, 'sketches'));
  console.log(`${to} is fresh.`);
} finally {
  rmSync(folder, { recursive: true });
}
