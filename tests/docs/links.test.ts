import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { describe, expect, test } from 'vitest';
import { root } from '../cli/run.ts';
import { ALL_PAGES, anchorOf, DOC_PAGES, type DocPage, headingsOf, withoutBlocks } from './pages.ts';

/** From here on a reader wants to see what a page holds before reading it. */
const LONG_PAGE_LINES = 100;
/** Reference pages, which nobody reads to their end. */
const WITHOUT_NEXT = ['docs/mathematics.md', 'docs/library.md', 'docs/json.md'];

interface Link {
  readonly to: string;
  readonly anchor?: string;
}

const linksOf = (page: DocPage): Link[] =>
  [...withoutBlocks(page).matchAll(/\]\((?!https?:)([^)#]*)(?:#([^)]+))?\)/g)].map(([, to = '', anchor]) => ({
    to: to === '' ? page.path : posix.join(posix.dirname(page.path), to),
    ...(anchor !== undefined && { anchor }),
  }));

const allHeadings = (path: string): string[] =>
  headingsOf({ path, text: readFileSync(join(root, path), 'utf8') }, '#{1,4}');

describe.each(ALL_PAGES)('$path', (page) => {
  test('every link leads to a file of the project, and to a heading there', () => {
    for (const { to, anchor } of linksOf(page)) {
      expect(existsSync(join(root, to)), to).toBe(true);
      if (anchor !== undefined) expect(allHeadings(to).map(anchorOf), to).toContain(anchor);
    }
  });
});

describe.each(DOC_PAGES.filter(({ text }) => text.split('\n').length > LONG_PAGE_LINES))('$path', (page) => {
  test('begins with its contents, every section in order', () => {
    const [before = ''] = page.text.split(/^## /m);
    const listed = [...before.matchAll(/^- \[[^\]]+\]\(#([^)]+)\)/gm)].map(([, anchor]) => anchor);
    expect(listed).toEqual(headingsOf(page, '##').map(anchorOf));
  });
});

test.each(DOC_PAGES.filter(({ path }) => !WITHOUT_NEXT.includes(path)))(
  '$path ends with what to read next',
  ({ text }) => {
    expect(text.trimEnd().split('\n\n').at(-1)).toMatch(/^\*\*Next:\*\* \[/);
  },
);

test('every picture is shown, with words for those who do not see it', () => {
  const shown = ALL_PAGES.flatMap((page) =>
    [...page.text.matchAll(/!\[([^\]]*)\]\(([^)]+)\)/g)].map(([, words = '', to = '']) => {
      expect(words, to).not.toBe('');
      return posix.join(posix.dirname(page.path), to);
    }),
  );
  const drawn = ['docs/pictures', 'docs/sketches'].flatMap((folder) =>
    readdirSync(join(root, folder)).map((name) => `${folder}/${name}`),
  );
  expect(drawn.filter((path) => !shown.includes(path))).toEqual([]);
});
