import fc from 'fast-check';

/** Text of any characters, halves of pairs too. fast-check's own `binary` unit first draws up a table of them all: seconds. */
export const anyText = (maxLength: number): fc.Arbitrary<string> =>
  fc
    .array(fc.integer({ min: 0, max: 0x10ffff }), { maxLength })
    .map((points) => String.fromCodePoint(...points));
