import type { Segment } from '../../curves/geometry/pieces/piece.ts';

/** Words for a pattern that is not the part's own: a router template, a bending form. */
export interface PatternNotes {
  /** Instead of "pattern" in its title: "router template". */
  readonly what: string;
  readonly line: string;
  /** A line of the part drawn thin beside it, mm. */
  readonly referenceCurve: {
    readonly path: readonly Segment[];
    readonly closed: boolean;
    readonly label: string;
  };
  readonly sections: readonly NoteSection[];
  readonly sentences: readonly string[];
  readonly cautions: readonly string[];
}

export interface NoteSection {
  readonly title: string;
  readonly steps: readonly string[];
}
