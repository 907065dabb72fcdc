import { expect, test } from 'vitest';
import { utf8Length } from '../../src/units/utf8.ts';

// Where a code point takes one byte more: RFC 3629, section 3.
test.each([0x00, 0x7f, 0x80, 0x7ff, 0x800, 0xffff, 0x1_0000, 0x10_ffff])(
  'U+%d takes the bytes that a writer gives it',
  (code) => {
    const letter = String.fromCodePoint(code);
    expect(utf8Length(`a${letter}b`)).toBe(Buffer.byteLength(letter) + 2);
  },
);
