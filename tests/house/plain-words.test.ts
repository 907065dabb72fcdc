import { describe, expect, test } from 'vitest';
import { complaintsOf, textsOfCode, textsOfDocument, textsOfMarkup } from './plain-words.ts';
import { readSources, type Source } from './source.ts';

const all = readSources('src');
const documents = [...readSources('docs'), ...readSources('').filter(({ path }) => path === 'README.md')];
const isRoom =
  (room: string) =>
  ({ path }: Source): boolean =>
    path.startsWith(`src/${room}`) && path.endsWith('.ts');

const ROOMS = ['units', 'curves', 'job', 'part', 'shop', 'check', 'tiling', 'export', 'cli', 'page'];

describe('the words that people see', () => {
  test.each(ROOMS)('are plain in src/%s', (room) => {
    const sources = all.filter(isRoom(`${room}/`));
    expect(sources.length).toBeGreaterThan(3);
    expect(complaintsOf(sources.flatMap(textsOfCode))).toEqual([]);
  });

  test('are plain in the markup of the page', () => {
    const pages = all.filter(({ path }) => path.endsWith('.html'));
    expect(pages).toHaveLength(1);
    expect(complaintsOf(pages.flatMap(textsOfMarkup))).toEqual([]);
  });

  test('are plain in the documents', () => {
    const texts = documents.filter(({ path }) => path.endsWith('.md')).flatMap(textsOfDocument);
    expect(texts.length).toBeGreaterThan(100);
    expect(complaintsOf(texts)).toEqual([]);
  });
});
