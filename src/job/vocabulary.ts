/** The names that may stand in one place of the job file. */
export interface Vocabulary {
  readonly known: readonly string[];
  /** Names that the job file will have: refused for now, so that nothing written is ever ignored. */
  readonly notYet?: readonly string[];
}

export const JOB_KEYS: Vocabulary = {
  known: ['part', 'units', 'graduation', 'quantity', 'stock', 'edges', 'allowance', 'notes'],
  notYet: ['pair', 'ends', 'joints'],
};

export const STOCK_KEYS: Vocabulary = { known: ['species', 'length', 'width', 'thickness', 'layers'] };

export const ALLOWANCE_KEYS: Vocabulary = { known: ['saw'] };

export const STEP_KINDS = ['line', 'arc', 'batten', 'spline'] as const;
export const STEP_KINDS_NOT_YET: readonly string[] = ['bow', 'ellipse'];
export type StepKind = (typeof STEP_KINDS)[number];

export const STEP_KEYS: Readonly<Record<StepKind, Vocabulary>> = {
  line: { known: ['line'] },
  arc: { known: ['arc', 'through', 'rise', 'radius'] },
  batten: { known: ['batten', 'through', 'apex'], notYet: ['strip', 'ends'] },
  spline: { known: ['spline', 'through', 'ends'] },
};

/** Nails between the ends of one batten. */
export const MAX_BATTEN_NAILS = 1;
