import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/** Source Sans 3 Regular, as the callers hand it to the writers. */
export const fontBytes = (): Uint8Array =>
  new Uint8Array(
    readFileSync(
      createRequire(import.meta.url).resolve(
        '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff',
      ),
    ),
  );
