import type { Segment } from '../../curves/geometry/pieces/piece.ts';

/** What sets a pattern that is not the part's own apart: a router's template, a form to bend over. */
export interface PatternNotes {
  /** Instead of "pattern" in its title: "router template". */
  readonly what: string;
  /** What the solid line is. */
  readonly line: string;
  /** A line of the part drawn thin beside it, mm. */
  readonly referenceCurve: {
    readonly path: readonly Segment[];
    readonly closed: boolean;
    readonly label: string;
  };
  /** Ahead of how to print and tape. */
  readonly sections: readonly NoteSection[];
  /** What the printed line is, in whole sentences. */
  readonly sentences: readonly string[];
  readonly cautions: readonly string[];
}

export interface NoteSection {
  readonly title: string;
  readonly steps: readonly string[];
}
