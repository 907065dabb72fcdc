// Part of npm run docs: composes the sketches of the docs from the library's own curves.
// node tools/docs-sketches.js FOLDER: into that folder; a test compares them with those in docs/sketches.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { writeSvg } from 'fairlath';
import { root } from './setup.js';
import { CURVE_SKETCHES } from './sketches/curves.js';
import { ANGLE_SKETCHES } from './sketches/glossary-angles.js';
import { LINE_SKETCHES } from './sketches/glossary-lines.js';
import { EDGE_SKETCHES } from './sketches/job-edges.js';
import { END_SKETCHES } from './sketches/job-ends.js';
import { TRANSFER_SKETCHES } from './sketches/transfer.js';

const SKETCHES = [
  LINE_SKETCHES,
  ANGLE_SKETCHES,
  CURVE_SKETCHES,
  EDGE_SKETCHES,
  END_SKETCHES,
  TRANSFER_SKETCHES,
].flat();

export function drawSketches(folder = join(root, 'docs', 'sketches')) {
  mkdirSync(folder, { recursive: true });
  for (const compose of SKETCHES) {
    const { name, title, drawing } = compose();
    writeFileSync(join(folder, `${name}.svg`), writeSvg(drawing, title));
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) drawSketches(process.argv[2]);
