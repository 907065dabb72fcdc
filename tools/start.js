// npm start [-- JOB.yaml] [options of `fairlath print`]
import { mkdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, extname, join, relative } from 'node:path';
import { cli, root, setUp } from './setup.js';

setUp();

// npm runs us in the project folder; file names are meant from the folder the user stands in.
process.chdir(process.env.INIT_CWD ?? process.cwd());

const words = process.argv.slice(2);
const place = words.findIndex((word, i) => /\.ya?ml$/i.test(word) || (i === 0 && !word.startsWith('-')));
const sample = relative(process.cwd(), join(root, 'samples', 'hall-bench-leg.yaml'));
const [job] = place < 0 ? [sample] : words.splice(place, 1);
const pdf = join('out', `${basename(job, extname(job))}.pdf`);
mkdirSync('out', { recursive: true });

// In this same process: a second Node would double the wait. The user's own -o comes later and wins.
process.argv = [process.execPath, cli, 'print', job, '-o', pdf, ...words];
await createRequire(import.meta.url)(cli).start();
