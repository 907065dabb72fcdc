/** Whether a file is one of ours, which may be replaced; anything else is left alone. */

/** An SVG of ours says so in its description. */
export const isOwnSvg = (bytes: Buffer): boolean => bytes.includes('<desc>Drawn by fairlath.');

/** A DXF of ours says so in its first comment. */
export const isOwnDxf = (bytes: Buffer): boolean =>
  /^\s*999\r?\nDrawn by fairlath\./.test(bytes.toString('latin1', 0, 80));

/** A PDF of ours names us as its producer. */
export function isOwnPdf(bytes: Buffer): boolean {
  const text = bytes.toString('latin1');
  const producer = /\/Producer (\d+) 0 R/.exec(text)?.[1];
  return text.startsWith('%PDF-') && new RegExp(`\\n${producer} 0 obj\\s*\\(fairlath\\)`).test(text);
}
