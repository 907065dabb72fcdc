import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from '../cli/run.ts';

const docs = join(root, 'docs');

/** A page of the docs, or the README: its path from the root, with forward slashes, and its text. */
export interface DocPage {
  readonly path: string;
  readonly text: string;
}

const readPage = (path: string): DocPage => ({ path, text: readFileSync(join(root, path), 'utf8') });

const README = readPage('README.md');

/** Every page in docs, by name. */
export const DOC_PAGES: readonly DocPage[] = readdirSync(docs)
  .filter((name) => name.endsWith('.md'))
  .toSorted()
  .map((name) => readPage(`docs/${name}`));

export const ALL_PAGES = [README, ...DOC_PAGES];

export const pageNamed = (name: string): DocPage => readPage(`docs/${name}`);

/** The fenced blocks of one language, as they stand. */
export const blocksOf = ({ text }: DocPage, language: string): string[] =>
  [...text.matchAll(new RegExp(`^\`\`\`${language}\n([\\s\\S]*?)^\`\`\``, 'gm'))].flatMap(
    ([, body]) => body ?? [],
  );

/** The text without its fenced blocks. */
export const withoutBlocks = ({ text }: DocPage): string => text.replace(/^```[\s\S]*?^```$/gm, '');

/** The anchor that a heading gets where the page is shown: lower case, hyphens for spaces, no other signs. */
export const anchorOf = (heading: string): string =>
  heading
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\s-]/gu, '')
    .replaceAll(' ', '-');

export const headingsOf = (page: DocPage, marks: string): string[] =>
  [...withoutBlocks(page).matchAll(new RegExp(`^${marks} (.+)$`, 'gm'))].flatMap(([, title]) => title ?? []);
