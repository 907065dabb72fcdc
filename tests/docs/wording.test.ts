import { describe, expect, test } from 'vitest';
import { ALL_PAGES, type DocPage, withoutBlocks } from './pages.ts';

/** A reader whose first language is another one loses the thread of a longer sentence. */
const MOST_WORDS = 25;
/** For engineers, in the words of their field and of the docstrings. */
const OTHER_READERS = ['docs/mathematics.md', 'docs/library.md'];
const pages = ALL_PAGES.filter(({ path }) => !OTHER_READERS.includes(path));

/** Spellings and words for which the project has another one. */
const OTHER_WORDS =
  /\b(?:colou?rs?(?<=our|ours)|centre[ds]?(?!-line)|neighbours?|millimetres?|grey|anew|afresh|lath|pins?|take care|guide bush|a hair(?! dryer))\b/gi;

/** Paragraphs and items of lists as plain text: without tables, pictures, code and the addresses of links. */
const proseOf = (page: DocPage): string[] =>
  withoutBlocks(page)
    .replaceAll(/^\|.*$/gm, '')
    .replaceAll(/!\[[^\]]*\]\([^)]*\)/g, '')
    .replaceAll(/\[([^\]]+)\]\([^)]*\)/g, '$1')
    .replaceAll(/`[^`]*`/g, 'code')
    .replaceAll(/\*\*/g, '')
    .split(/\n\s*\n|\n(?=\s*(?:-|\d+\.|>) )|^#.*$/m)
    .map((paragraph) => paragraph.replaceAll(/\s+/g, ' ').trim())
    .filter(Boolean);

const sentencesOf = (paragraph: string): string[] =>
  paragraph.split(/(?<=[.!?:][)”"]?) (?=[\p{Lu}“"(]|code|fairlath)/u);

describe.each(pages)('$path', (page) => {
  test(`has no sentence over ${MOST_WORDS} words`, () => {
    const long = proseOf(page)
      .flatMap(sentencesOf)
      .filter((sentence) => sentence.split(' ').length > MOST_WORDS);
    expect(long).toEqual([]);
  });

  test('uses the words of the project', () => {
    expect(proseOf(page).flatMap((paragraph) => paragraph.match(OTHER_WORDS) ?? [])).toEqual([]);
  });
});
