/** Fewer pages than this are written before anyone wonders. */
const MIN_PAGES = 50;

/** Tells on a terminal how many pages are written; undefined where nobody watches or they are few. */
export function progressReporter(pages: number): ((written: number) => void) | undefined {
  if (pages <= MIN_PAGES || !process.stderr.isTTY) return undefined;
  return (written) => {
    process.stderr.write(`\r${written} of ${pages} pages${written === pages ? '\n' : ''}`);
  };
}
