/** The names that the job file may give in each of its groups, in the order that messages list them. */

export const JOB_KEYS: readonly string[] = [
  'part',
  'units',
  'graduation',
  'quantity',
  'pair',
  'stock',
  'laminate',
  'edges',
  'ends',
  'stands',
  'joints',
  'allowance',
  'notes',
];

export const STOCK_KEYS: readonly string[] = ['species', 'length', 'width', 'thickness', 'layers', 'grain'];
export const LAMINATE_KEYS: readonly string[] = ['plies', 'ply', 'form', 'springback'];
export const ALLOWANCE_KEYS: readonly string[] = ['saw', 'width'];
export const PARALLEL_KEYS: readonly string[] = ['parallel', 'by'];
export const STANDS_KEYS: readonly string[] = ['foot', 'foot-out'];
/** What an edge may not be named: these say towards what a foot is out. */
export const FOOT_OUT_KEYS: readonly string[] = ['reference-face', 'other-face', 'twist'];
export const ENDS_KEYS: readonly string[] = ['left', 'right'];
export const END_KEYS: readonly string[] = ['miter', 'bevel', 'rake', 'splay'];
