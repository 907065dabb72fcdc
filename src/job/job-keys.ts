/** The names that may stand in one place of the job file. */
export interface KeySet {
  readonly known: readonly string[];
}

export const JOB_KEYS: KeySet = {
  known: [
    'part',
    'units',
    'graduation',
    'quantity',
    'pair',
    'stock',
    'edges',
    'ends',
    'joints',
    'allowance',
    'notes',
  ],
};

export const STOCK_KEYS: KeySet = { known: ['species', 'length', 'width', 'thickness', 'layers'] };

export const ALLOWANCE_KEYS: KeySet = { known: ['saw', 'width'] };

export const STEP_KINDS = ['line', 'arc', 'batten', 'bow', 'spline', 'ellipse'] as const;
export type StepKind = (typeof STEP_KINDS)[number];

export const STEP_KEYS: Readonly<Record<StepKind, KeySet>> = {
  line: { known: ['line'] },
  arc: { known: ['arc', 'through', 'rise', 'radius'] },
  batten: { known: ['batten', 'through', 'apex', 'ends', 'strip'] },
  bow: { known: ['bow', 'rise'] },
  ellipse: { known: ['ellipse', 'rise'] },
  spline: { known: ['spline', 'through', 'ends'] },
};

export const STRIP_KEYS: KeySet = { known: ['from', 'to'] };

export const ENDS_KEYS: KeySet = { known: ['left', 'right'] };
export const END_KEYS: KeySet = { known: ['miter', 'bevel', 'rake', 'splay'] };

export const JOINT_KINDS = ['mortise', 'hole', 'slot', 'centre-line', 'mark'] as const;
export type JointKind = (typeof JOINT_KINDS)[number];

const RECESS: KeySet = { known: ['at', 'out', 'length', 'width', 'turn', 'depth', 'label'] };

export const JOINT_KEYS: Readonly<Record<JointKind, KeySet>> = {
  mortise: RECESS,
  slot: RECESS,
  hole: { known: ['at', 'out', 'diameter', 'depth', 'lean', 'toward', 'label'] },
  'centre-line': { known: ['at', 'out', 'label'] },
  mark: { known: ['at', 'out', 'label'] },
};
