import type { EdgeCheck } from '../../check/check-edge.ts';
import { type Opening, openedCurve } from '../../check/opened-curve.ts';
import type { StationReading } from '../../check/readings/read-readings.ts';
import { riseAt } from '../../part/derived/ply-stack.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { planPlies } from '../../shop/plies/plan-plies.ts';
import type { Warning } from '../../units/fault.ts';
import { type Rule, readOnRule, showNearest } from '../../units/rule.ts';

/** What a trial piece says of the springback; all mm, on the edge that the form touches. */
export interface Springback {
  readonly rise: number;
  readonly askedRise: number;
  readonly formRise: number;
  /** Off the form of the job: what to write as its springback. */
  readonly lost: number;
  /** Off a form with the curve of the part itself. */
  readonly lostOnPart: number;
}

/** Undefined for a part that is not laminated, and where no opened curve fits the readings. */
export function readSpringback(
  part: Part,
  edge: PartEdge,
  readings: readonly StationReading[],
  { base }: EdgeCheck,
): Springback | undefined {
  if (!part.laminate) return undefined;
  const opening = openedCurve(part, edge, readings, base);
  return opening && springbackOf(part, opening);
}

function springbackOf(part: Part, { bend }: Opening): Springback {
  const { form, stack } = planPlies(part);
  const rise = riseAt(stack.edge.pieces, bend);
  const { rise: formRise, askedRise } = form;
  return { rise, askedRise, formRise, lost: formRise - rise, lostOnPart: askedRise - rise };
}

/** What a crooked setup or a wrong rise looks like on a part that is sawn. */
const ELSE_SAID: readonly string[] = ['check.wrong-rise', 'check.set-crooked', 'check.odd-reading'];

export function withSpringback(
  suspects: readonly Warning[],
  springback: Springback | undefined,
  { verdict }: EdgeCheck,
  rule: Rule,
): readonly Warning[] {
  if (!springback || verdict === 'within') return suspects;
  const others = suspects.filter(({ code }) => !ELSE_SAID.includes(code));
  return [...others, { code: 'check.springback', message: springbackWords(springback, rule) }];
}

function springbackWords({ rise, askedRise, formRise, lost, lostOnPart }: Springback, rule: Rule): string {
  const show = (mm: number): string => showNearest(mm, rule);
  const what = rise < askedRise ? 'This is springback: the part opened' : 'The part closed';
  const rises = `${what}. It rises ${show(rise)}, and ${show(askedRise)} is right.`;
  if (lost < 0)
    return `${rises} It rises more than its form, ${show(formRise)}. Measure the form and the part again.`;
  const typed = (mm: number): string => `write "springback: ${readOnRule(mm, rule).text}" under "laminate"`;
  const ofJob = `If it was bent on the form of this job, which rises ${show(formRise)}, it lost ${show(lost)}: ${typed(lost)}.`;
  if (lostOnPart <= 0) return `${rises} ${ofJob}`;
  return `${rises} ${ofJob} If its form had the curve of the part, it lost ${show(lostOnPart)}: ${typed(lostOnPart)}.`;
}

/** The line of the answer, whether the part is within its tolerance or not. */
export const springbackText = ({ rise, formRise, lost }: Springback, rule: Rule): string =>
  `springback  the part rises ${showNearest(rise, rule)}, ${showNearest(Math.abs(lost), rule)} ${lost < 0 ? 'more' : 'less'} than the form of this job, ${showNearest(formRise, rule)}`;
