import type { Page } from '../../export/drawing/drawing.ts';
import type { Part } from '../../part/part.ts';
import type { Layout } from '../../tiling/layout.ts';
import type { LayOutOptions } from '../../tiling/tile.ts';
import type { Warning } from '../../units/fault.ts';

export interface PreparedPrint {
  readonly part: Part;
  readonly title: string;
  readonly layout: Layout;
  /** The pattern of the mirrored part, where a pair has parts that differ. */
  readonly mirrored?: Layout;
  /** The names of the pages in order, known before the pages are drawn. */
  readonly names: readonly string[];
  readonly pages: Iterable<Page>;
  readonly json?: object;
  readonly messages?: readonly string[];
  readonly warnings?: readonly Warning[];
}

/** Prepares one kind of print, from the options of that kind. */
export type PreparePrint<Options> = (
  part: Part,
  options: Options & { readonly edge?: string; readonly half?: boolean; readonly cover: boolean },
  sheets: LayOutOptions,
) => Promise<PreparedPrint>;

/** Fewer pages than this take no noticeable time. */
const MIN_PROGRESS_PAGES = 50;

/** Counts the written pages on a terminal. Undefined if there is no terminal, or for few pages. */
export function progressReporter(pages: number): ((written: number) => void) | undefined {
  if (pages <= MIN_PROGRESS_PAGES || !process.stderr.isTTY) return undefined;
  return (written) => {
    process.stderr.write(`\r${written} of ${pages} pages${written === pages ? '\n' : ''}`);
  };
}
