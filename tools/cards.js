// npm run cards: writes the job cards of the hall bench beside their jobs, from the program's own output.
import { execFileSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import { cli, root, setUp } from './setup.js';

setUp();

const folder = join(root, 'samples', 'hall-bench');
for (const job of readdirSync(folder).filter((name) => name.endsWith('.yaml'))) {
  const card = join(folder, `${basename(job, '.yaml')}-card.pdf`);
  execFileSync(process.execPath, [cli, 'card', join(folder, job), '-o', card]);
  console.log(`${card} is fresh.`);
}
