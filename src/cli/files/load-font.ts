import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/** Source Sans 3 (SIL Open Font License), from the package that carries it. */
export const loadFont = (): Uint8Array =>
  readFileSync(
    createRequire(import.meta.url).resolve(
      '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff',
    ),
  );
