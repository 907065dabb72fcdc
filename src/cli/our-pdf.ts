/** A PDF of ours names us as its producer; anything else is left alone. */
export function isOurPdf(bytes: Buffer): boolean {
  const text = bytes.toString('latin1');
  const producer = /\/Producer (\d+) 0 R/.exec(text)?.[1];
  return text.startsWith('%PDF-') && new RegExp(`\\n${producer} 0 obj\\s*\\(fairlath\\)`).test(text);
}
