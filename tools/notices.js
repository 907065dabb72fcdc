// The licenses of what the build bundles, from the bundlers' own lists of files.
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { root } from './setup.js';

const PACKAGE = /^(?:.*[\\/])?node_modules[\\/](?:@[^\\/]+[\\/])?[^\\/]+/;
const LICENSE_FILE = /^(licen[cs]e|copying|notice)/i;

/** For a package that names this license and holds no text of it. */
const MIT = `Permission is hereby granted, free of charge, to any person obtaining a copy
of this software and associated documentation files (the "Software"), to deal
in the Software without restriction, including without limitation the rights
to use, copy, modify, merge, publish, distribute, sublicense, and/or sell
copies of the Software, and to permit persons to whom the Software is
furnished to do so, subject to the following conditions:

The above copyright notice and this permission notice shall be included in all
copies or substantial portions of the Software.

THE SOFTWARE IS PROVIDED "AS IS", WITHOUT WARRANTY OF ANY KIND, EXPRESS OR
IMPLIED, INCLUDING BUT NOT LIMITED TO THE WARRANTIES OF MERCHANTABILITY,
FITNESS FOR A PARTICULAR PURPOSE AND NONINFRINGEMENT. IN NO EVENT SHALL THE
AUTHORS OR COPYRIGHT HOLDERS BE LIABLE FOR ANY CLAIM, DAMAGES OR OTHER
LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR OTHERWISE, ARISING FROM,
OUT OF OR IN CONNECTION WITH THE SOFTWARE OR THE USE OR OTHER DEALINGS IN THE
SOFTWARE.`;

/** Of the packages that these files come from. esbuild names files from the project folder, vite by their whole path. */
export function noticesOf(files) {
  const folders = new Set(
    files.flatMap((file) => PACKAGE.exec(file)?.[0] ?? []).map((folder) => resolve(root, folder)),
  );
  const notices = new Map([...folders].map((folder) => noticeOf(folder)));
  return [...notices.keys()]
    .sort()
    .map((title) => `${title}\n\n${notices.get(title)}\n`)
    .join(`\n${'-'.repeat(78)}\n\n`);
}

function noticeOf(folder) {
  const { name, version, license, author } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const title = `${name} ${version}${license ? `, ${license}` : ''}`;
  const texts = readdirSync(folder)
    .filter((file) => LICENSE_FILE.test(file))
    .sort()
    .map((file) => readFileSync(join(folder, file), 'utf8').trim());
  if (texts.length > 0) return [title, texts.join('\n\n')];
  if (license !== 'MIT')
    throw new Error(`${name} ${version} has no license text. Leave it out, or add its text here.`);
  return [title, `Copyright (c) ${author?.name ?? author}\n\n${MIT}`];
}
