// npm run release: release/ with the page as one file, the package, and their SHA-256 sums.
import { createHash } from 'node:crypto';
import { copyFileSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { root, setUp, step } from './setup.js';

const release = join(root, 'release');
const SUMS = 'SHA256SUMS';

/** As sha256sum writes and checks them. */
function sumOf(name) {
  const sum = createHash('sha256')
    .update(readFileSync(join(release, name)))
    .digest('hex');
  return `${sum}  ${name}\n`;
}

setUp();
rmSync(release, { recursive: true, force: true });
mkdirSync(release);
copyFileSync(join(root, 'dist', 'fairlath.html'), join(release, 'fairlath.html'));
step('Packing ...', 'npm', ['pack', '--silent', '--pack-destination', release]);
const names = readdirSync(release).sort();
writeFileSync(join(release, SUMS), names.map(sumOf).join(''));
console.log(`release/ holds ${[...names, SUMS].join(', ')}.`);
