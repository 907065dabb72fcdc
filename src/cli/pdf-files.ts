import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/** A PDF of ours names us as its producer; anything else is left alone. */
export function isOurPdf(bytes: Buffer): boolean {
  const text = bytes.toString('latin1');
  const producer = /\/Producer (\d+) 0 R/.exec(text)?.[1];
  return text.startsWith('%PDF-') && new RegExp(`\\n${producer} 0 obj\\s*\\(fairlath\\)`).test(text);
}

/** Source Sans 3 (SIL Open Font License), from the package that carries it. */
export const readFont = (): Uint8Array =>
  readFileSync(
    createRequire(import.meta.url).resolve(
      '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff',
    ),
  );
