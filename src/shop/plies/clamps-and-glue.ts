import type { Form } from '../../part/derived/bending-form.ts';
import type { Part } from '../../part/part.ts';
import { MM_PER_INCH, type Unit } from '../../units/unit.ts';
import type { Lamination } from '../strip/lamination.ts';
import type { Resawing } from './resawing.ts';

export interface ClampPlan {
  /** Between two clamps, mm. */
  readonly every: number;
  readonly count: number;
  /** Of all joints between plies of one part, one side of each, mm²; absent where the width is not known. */
  readonly glueArea?: number;
  /** Of one part, kg. */
  readonly glue?: number;
}

/** A hand's width. Common practice, no published source. */
const EVERY: Readonly<Record<Unit, number>> = { in: 4 * MM_PER_INCH, mm: 100 };

/** Spread on one side of each joint, kg/mm²: 220 g/m². Common practice, no published source: the glue's maker says. */
const SPREAD = 220e-9;

/** Along the face of the form, its tails included: the first and the last clamp hold them. */
export function planClamps(
  { rule }: Part,
  { plies }: Lamination,
  { length, tails }: Form,
  { width }: Pick<Resawing, 'width'>,
): ClampPlan {
  const every = EVERY[rule.unit];
  const face = length + tails[0] + tails[1];
  const count = Math.ceil(face / every) + 1;
  if (width === undefined) return { every, count };
  const glueArea = (plies - 1) * face * width;
  return { every, count, glueArea, glue: glueArea * SPREAD };
}
