import type { Curve } from '../../curves/curve.ts';
import { pinForces } from '../../curves/elastica/pin-reactions.ts';
import type { TaperedSegment } from '../../curves/geometry/pieces/piece.ts';
import { pinPushes } from '../../curves/geometry/pieces/tapered-series.ts';
import { figuresOf } from '../../curves/measurements.ts';
import type { EndConditions } from '../../job/steps/end-conditions.ts';
import type { EdgeStep } from '../../job/steps/step-kinds.ts';
import type { Part } from '../../part/part.ts';
import { firstOf, itemAt, lastOf } from '../../units/checked.ts';
import { Fault } from '../../units/fault.ts';
import { type SprungLine, sampleStrip, sprungLine, unpinnedLine, worstTaperBend } from './sprung-line.ts';
import { adviseStrip, type StripAdvice, type StripOptions } from './strip-advice.ts';

export interface RunAdvice {
  readonly edge: string;
  readonly curve: Curve;
  readonly line: SprungLine;
  readonly advice: StripAdvice;
}

export type RunsAdvice = readonly [RunAdvice, ...RunAdvice[]];

/**
 * One even batten for all curved runs, as thin as any needs; a tapered one as thick as the job planes it.
 * @throws Fault `strip.straight` for a part without a curve, and as `adviseStrip`
 */
export function adviseStrips(part: Part, ask: StripOptions): RunsAdvice {
  const runs = curvedRuns(part);
  const even = runs.filter(({ jobThickness }) => jobThickness === undefined);
  const thinnest = Math.min(...even.map(({ line }) => adviseStrip(line, ask).thickness));
  const [first, ...more] = runs.map(({ jobThickness, ...run }) => {
    const thickness = ask.thickness ?? jobThickness ?? thinnest;
    return { ...run, advice: adviseStrip(run.line, { ...ask, thickness }) };
  });
  const problem = 'the part has no curve and needs no batten. Draw the part along a straightedge.';
  if (!first) throw new Fault('strip.straight', problem);
  return [first, ...more];
}

const curvedRuns = (part: Part) =>
  part.edges.flatMap(({ name, runs }) =>
    runs.flatMap((curve) => {
      const { step } = curve;
      const line = sprungLineOf(curve, step);
      const jobThickness = step?.kind === 'batten' ? step.strip?.from : undefined;
      return line.worst ? [{ edge: name, curve, line, jobThickness }] : [];
    }),
  );

export const mostStrained = (runs: RunsAdvice): RunAdvice =>
  runs.reduce((a, b) => (b.advice.strain > a.advice.strain ? b : a));

export const stripToCut = (runs: RunsAdvice): StripAdvice => ({
  ...mostStrained(runs).advice,
  cutLength: Math.max(...runs.map(({ advice }) => advice.cutLength)),
});

function sprungLineOf(run: Curve, step: EdgeStep | undefined): SprungLine {
  if (step?.kind !== 'batten') return unpinnedLine(run);
  const tapered = run.exact.filter((piece): piece is TaperedSegment => piece.type === 'tapered');
  if (tapered.length > 0) return taperedLine(run, tapered, step.ends);
  const reactions = pinForces(run.exact).map(({ reaction }) => reaction);
  return sprungLine(run, reactions, step.ends);
}

/** The strain of a tapered batten is smooth between two nails. */
const SAMPLES_PER_SPAN = 64;

function taperedLine(run: Curve, spans: readonly TaperedSegment[], ends: EndConditions): SprungLine {
  const [start] = firstOf(spans).thickness;
  const worst = worstTaperBend(spans.flatMap((span) => sampleStrip(span, SAMPLES_PER_SPAN)));
  const thicknessAt = [...spans.map(({ thickness }) => thickness[0]), lastOf(spans).thickness[1]];
  const pins = pinPushes(spans).map(({ at, angle, across }, i) => {
    // The pushes are for a stiffness of thickness cubed; the advice counts in the start's stiffness.
    const reaction = across / start ** 3;
    return { at, angle, curvature: 0, reaction, share: itemAt(thicknessAt, i) / start };
  });
  return { length: figuresOf(run).length, ...(worst && { worst }), pins, ends };
}
