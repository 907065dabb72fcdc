import { pointOnArc } from '../../curves/arcs/biarc.ts';
import { maxDeviation } from '../../curves/geometry/closest-point.ts';
import { paramCurve } from '../../curves/geometry/evaluate.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { CURVE_FIT_MM, type DrawnLine, type FullLine } from './full-size.ts';

export interface FullSizeFigures {
  readonly lines: number;
  readonly arcs: number;
  readonly curves: number;
  /** The farthest anything drawn lies off the line meant, mm: measured on what is drawn. */
  readonly worst: number;
}

const SAMPLES_PER_SEGMENT = 24;
const SAMPLE_PARAMETERS = Array.from({ length: SAMPLES_PER_SEGMENT + 1 }, (_, i) => i / SAMPLES_PER_SEGMENT);

export const measureDrawnLines = (drawn: readonly DrawnLine[], as: 'arcs' | 'curves'): FullSizeFigures =>
  totalFigures(
    drawn.flatMap(({ line, copies }) => {
      const figures = as === 'arcs' ? arcFigures(line) : curveFigures(line);
      return copies.map(() => figures);
    }),
  );

export function totalFigures(each: readonly FullSizeFigures[]): FullSizeFigures {
  const sum = (key: 'lines' | 'arcs' | 'curves'): number => each.reduce((all, one) => all + one[key], 0);
  const worst = Math.max(0, ...each.map((one) => one.worst));
  return { lines: sum('lines'), arcs: sum('arcs'), curves: sum('curves'), worst };
}

function arcFigures(line: FullLine): FullSizeFigures {
  const arcs = line.arcs();
  const straight = arcs.filter(({ bulge }) => bulge === 0).length;
  const samples = arcs.flatMap((arc) => SAMPLE_PARAMETERS.map((u) => pointOnArc(arc, u)));
  return { lines: straight, arcs: arcs.length - straight, curves: 0, worst: maxLineDeviation(line, samples) };
}

function curveFigures(line: FullLine): FullSizeFigures {
  const { path } = line;
  const count = (type: string): number => path.filter((segment) => segment.type === type).length;
  const samples = path.flatMap((segment) => SAMPLE_PARAMETERS.map(paramCurve(segment)));
  const worst = maxLineDeviation(line, samples);
  return { lines: count('line'), arcs: count('arc'), curves: count('cubic'), worst };
}

/** A parallel is itself known within CURVE_FIT_MM only. */
const maxLineDeviation = ({ layer, exact }: FullLine, places: readonly Point[]): number =>
  maxDeviation(places, exact) + (layer === 'saw' || layer === 'parallel' ? CURVE_FIT_MM : 0);
