import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { inflateSync } from 'node:zlib';

/** Source Sans 3 (SIL Open Font License), from the package that carries it. */
export const readFont = (): Uint8Array =>
  unpacked(
    readFileSync(
      createRequire(import.meta.url).resolve(
        '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff',
      ),
    ),
  );

const WOFF_HEADER = 44;
const WOFF_ENTRY = 20;
const SFNT_HEADER = 12;
const SFNT_ENTRY = 16;

/**
 * A WOFF 1.0 file as the OpenType font inside it (W3C Recommendation of 2012, sections 3 to 5). The PDF
 * library reads both, but inflates the tables without zlib: longer than a short pattern takes to write.
 */
function unpacked(woff: Buffer): Uint8Array {
  const count = woff.readUInt16BE(12);
  const font = Buffer.alloc(woff.readUInt32BE(16));
  font.writeUInt32BE(woff.readUInt32BE(4), 0);
  font.writeUInt16BE(count, 4);
  let end = SFNT_HEADER + SFNT_ENTRY * count;
  for (let i = 0; i < count; i++) {
    const entry = WOFF_HEADER + WOFF_ENTRY * i;
    const [start, packed, length] = [4, 8, 12].map((at) => woff.readUInt32BE(entry + at)) as [
      number,
      number,
      number,
    ];
    const bytes = woff.subarray(start, start + packed);
    font.set(packed < length ? inflateSync(bytes) : bytes, end);
    const record = SFNT_HEADER + SFNT_ENTRY * i;
    woff.copy(font, record, entry, entry + 4);
    woff.copy(font, record + 4, entry + 16, entry + 20);
    font.writeUInt32BE(end, record + 8);
    font.writeUInt32BE(length, record + 12);
    end += Math.ceil(length / 4) * 4;
  }
  return font;
}
