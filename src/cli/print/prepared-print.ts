import type { Page } from '../../export/drawing/drawing.ts';
import type { Part } from '../../part/part.ts';
import type { Layout } from '../../tiling/layout.ts';
import type { Warning } from '../../units/fault.ts';

/** Something to print, laid over its sheets: a pattern, a gauge, a template, a form. */
export interface PreparedPrint {
  readonly part: Part;
  /** The file's title, and the first words of what is told. */
  readonly title: string;
  readonly layout: Layout;
  /** Of a pair whose halves differ, the pattern of the other. */
  readonly mirrored?: Layout;
  /** The pages' names in order, without drawing them. */
  readonly names: readonly string[];
  readonly pages: Iterable<Page>;
  /** What its JSON has beside what every print has. */
  readonly json?: object;
  /** What is told of it beside its sheets. */
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
