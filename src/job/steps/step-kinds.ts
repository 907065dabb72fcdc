import type { Curve } from '../../curves/curve.ts';
import type { StripEnds } from '../../curves/elastica/solve-strip.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { line } from '../../curves/simple/line.ts';
import type { ShowLength } from '../../units/fault.ts';
import { arcStep } from './arc-step.ts';
import { battenStep } from './batten-step.ts';
import type { EndConditions } from './end-conditions.ts';
import { bowStep, ellipseStep } from './rise-steps.ts';
import { splineStep } from './spline-step.ts';
import type { PointList, StepHandle, StepKind, StepView } from './step-kind.ts';

const lineStep: StepKind<object> = {
  keys: [],
  read: () => ({ fields: {}, points: [] }),
  run: (from, { to }) => line(from, to),
  isRigid: true,
  sentence: () => 'straight.',
};

/** Every kind of step, by its name in the job file, in the order that messages list them. */
export const STEP_KINDS = {
  line: lineStep,
  arc: arcStep,
  batten: battenStep,
  bow: bowStep,
  spline: splineStep,
  ellipse: ellipseStep,
};

export type StepKindName = keyof typeof STEP_KINDS;
export const STEP_NAMES = Object.keys(STEP_KINDS) as StepKindName[];

export const stepKeys = (kind: StepKindName): readonly string[] => [kind, ...STEP_KINDS[kind].keys];

/** "a line", "an arc". */
export const aStep = (kind: StepKindName): string => `${/^[aeo]/.test(kind) ? 'an' : 'a'} ${kind}`;

type FieldsOf<Kind> = Kind extends StepKind<infer Fields> ? Fields : never;
type StepOf<Kind extends StepKindName> = FieldsOf<(typeof STEP_KINDS)[Kind]> & { readonly kind: Kind };

export type EdgeStep = { readonly to: Point; readonly key: string } & {
  [K in StepKindName]: StepOf<K>;
}[StepKindName];

/** The record of its own kind takes this step, which the compiler cannot follow through the union. */
const viewOf = ({ kind }: EdgeStep): StepView<EdgeStep> => STEP_KINDS[kind] as StepView<never>;

export const stepRun = (from: Point, step: EdgeStep, ends: StripEnds): Curve =>
  viewOf(step).run(from, step, ends);

export const isRigidStep = (step: EdgeStep): boolean => viewOf(step).isRigid ?? false;

export const stepEnds = (step: EdgeStep): EndConditions => viewOf(step).ends?.(step) ?? ['free', 'free'];

export const stepHandles = (step: EdgeStep): readonly StepHandle[] => viewOf(step).handles?.(step) ?? [];

export const stepPointList = (step: EdgeStep): PointList | undefined => viewOf(step).pointList?.(step);

export const stepSentence = (step: EdgeStep, run: Curve, show: ShowLength): string =>
  viewOf(step).sentence(step, run, show);
