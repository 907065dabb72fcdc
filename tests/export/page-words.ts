import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';
import type { Item } from '../../src/export/drawing/drawing.ts';
import { wordsOf } from './words-on.ts';

/** The text on a page or picture, line by line in the order it is drawn. */
export const textLines = (items: readonly Item[]): string[] => wordsOf(items).map(({ text }) => text);

/**
 * Compares all that some pages say with their reviewed file of words, tests/words/NAME.txt; `npx vitest run -u` writes
 * it again. A page is a heading and its lines.
 */
export async function expectPageWords(
  name: string,
  pages: readonly (readonly [heading: string, lines: readonly string[]])[],
): Promise<void> {
  const text = pages.map(([heading, lines]) => `# ${heading}\n${lines.join('\n')}\n`).join('\n');
  await expect(text).toMatchFileSnapshot(fileURLToPath(new URL(`../words/${name}.txt`, import.meta.url)));
}

/** What a mistake says, its lengths in mm. */
export function messageOf(action: () => unknown): string {
  try {
    action();
  } catch (error) {
    if (error instanceof Error) return error.message;
    throw error;
  }
  throw new Error('nothing was refused');
}
