import { line } from '../../curves/simple/line.ts';
import type { StepKind } from './step-kind.ts';

export const lineStep: StepKind<object> = {
  keys: [],
  read: () => ({ fields: {}, points: [] }),
  run: (from, { to }) => line(from, to),
  isRigid: true,
  sentence: () => 'straight.',
};
