import type { Page } from '../../export/drawing/drawing.ts';
import type { Part } from '../../part/part.ts';
import type { Layout } from '../../tiling/layout.ts';
import type { Warning } from '../../units/fault.ts';

/** A pattern, a gauge, a template or a form, laid out over its sheets. */
export interface PreparedPrint {
  readonly part: Part;
  /** The title of the file, and the first words of the answer. */
  readonly title: string;
  readonly layout: Layout;
  /** The pattern of the mirrored part, where a pair has parts that differ. */
  readonly mirrored?: Layout;
  /** The names of the pages in order: to know them needs no drawing. */
  readonly names: readonly string[];
  readonly pages: Iterable<Page>;
  /** Keys of its own in the JSON. */
  readonly json?: object;
  readonly messages?: readonly string[];
  readonly warnings?: readonly Warning[];
}

/** Nobody waits long for fewer pages than this. */
const MIN_PROGRESS_PAGES = 50;

/** Counts the pages on a terminal as they are written; undefined where nobody watches or they are few. */
export function progressReporter(pages: number): ((written: number) => void) | undefined {
  if (pages <= MIN_PROGRESS_PAGES || !process.stderr.isTTY) return undefined;
  return (written) => {
    process.stderr.write(`\r${written} of ${pages} pages${written === pages ? '\n' : ''}`);
  };
}
