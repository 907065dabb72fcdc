import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { FontSubset } from '../../src/units/font-tables.ts';

/** A file of Source Sans 3 Regular, as the callers hand it to the writers. */
export const fontBytes = (subset: FontSubset = 'latin'): Uint8Array =>
  new Uint8Array(
    readFileSync(
      createRequire(import.meta.url).resolve(
        `@fontsource/source-sans-3/files/source-sans-3-${subset}-400-normal.woff`,
      ),
    ),
  );
