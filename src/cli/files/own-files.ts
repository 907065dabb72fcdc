/** The endings of what commands write. */
export type OutputEnding = '.pdf' | '.svg' | '.dxf' | '.yaml';

/** Tells by its content whether fairlath wrote a file. A job is the user's from the moment that it is written. */
export const IS_OWN_FILE: Readonly<Record<OutputEnding, (bytes: Buffer) => boolean>> = {
  '.pdf': isOwnPdf,
  '.svg': (bytes) => bytes.includes('<desc>Drawn by fairlath.'),
  '.dxf': (bytes) => /^\s*999\r?\nDrawn by fairlath\./.test(bytes.toString('latin1', 0, 80)),
  '.yaml': () => false,
};

/** Its document information names fairlath as the producer. */
function isOwnPdf(bytes: Buffer): boolean {
  const text = bytes.toString('latin1');
  const producer = /\/Producer (\d+) 0 R/.exec(text)?.[1];
  return text.startsWith('%PDF-') && new RegExp(`\\n${producer} 0 obj\\s*\\(fairlath\\)`).test(text);
}
