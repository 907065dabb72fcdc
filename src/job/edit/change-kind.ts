import type { Curve } from '../../curves/curve.ts';
import { ChordFrame } from '../../curves/geometry/chord-frame.ts';
import { lerp, type Point } from '../../curves/geometry/point.ts';
import { apexOf } from '../../curves/measurements.ts';
import { type Rule, readOnRule } from '../../units/rule.ts';
import { STEP_NAMES, type StepKindName } from '../steps/step-kinds.ts';
import { insertItem, removeValue, setValue, valueAt } from './set-value.ts';
import type { JobValue } from './yaml-text.ts';

type StepPairs = { readonly [name: string]: JobValue };

/** A straight run that becomes a curve gets this share of its chord as rise: plain to see, and easy to bend. */
const FIRST_RISE = 1 / 12;

/**
 * The job with another kind of curve at `key` (`edges.back[1]`): through the same end, as high over its chord as `run`
 * was. A batten and a spline keep their nails or points.
 */
export function changeKind(text: string, key: string, kind: StepKindName, run: Curve, rule: Rule): string {
  const { old, end } = stepAt(text, key);
  const typed = (mm: number): string => readOnRule(mm, rule).text;
  const { rise, at } = highest(run);
  const through = old.through ?? [typed(at.x), typed(at.y)];
  switch (kind) {
    case 'line':
      return setValue(text, key, { line: end });
    case 'batten':
    case 'spline': {
      const held = heldEnds(old.ends, kind);
      return setValue(text, key, { [kind]: end, through, ...(held && { ends: held }) });
    }
    default:
      return setValue(text, key, { [kind]: end, rise: typed(rise) });
  }
}

/** How the ends of a batten or a spline are held; free or natural ends, which need no words, go. */
export function setHeldEnds(
  text: string,
  key: string,
  isHeld: readonly [start: boolean, end: boolean],
): string {
  const { kind } = stepAt(text, key);
  if (!isHeld.includes(true)) return removeValue(text, `${key}.ends`);
  return setValue(
    text,
    `${key}.ends`,
    isHeld.map((held) => (held ? 'held' : (FREE[kind] ?? 'free'))),
  );
}

export function isHeldAt(text: string, key: string): readonly [start: boolean, end: boolean] {
  const { ends } = stepAt(text, key).old;
  const [start, end = start] = Array.isArray(ends) ? ends : [ends];
  return [start === 'held', end === 'held'];
}

/** A straight run in two, at its middle. */
export function splitLine(text: string, key: string, run: Curve, rule: Rule): string {
  const middle = lerp(run.from, run.to, 0.5);
  const point = [middle.x, middle.y].map((mm) => readOnRule(mm, rule).text);
  const [, edge = '', index = '0'] = /^(.*)\[(\d+)\]$/.exec(key) ?? [];
  return insertItem(text, edge, Number(index), { line: point });
}

/** The kind, the pairs and the end point of a step, as typed. */
function stepAt(text: string, key: string): { old: StepPairs; kind: StepKindName; end: JobValue } {
  const old = (valueAt(text, key) ?? {}) as StepPairs;
  const kind = STEP_NAMES.find((name) => name in old);
  const end = kind && old[kind];
  if (!kind || end === undefined) throw new Error(`the job has no step at "${key}"`);
  return { old, kind, end };
}

const FREE: Partial<Record<StepKindName, string>> = { batten: 'free', spline: 'natural' };

function heldEnds(ends: JobValue | undefined, kind: 'batten' | 'spline'): JobValue | undefined {
  const each = (word: JobValue): JobValue => (word === 'held' ? word : (FREE[kind] ?? word));
  return Array.isArray(ends) ? ends.map(each) : ends === 'held' ? ends : undefined;
}

/** The signed rise of a run and where it is; of a straight one, the first rise over its middle. */
function highest({ exact, from, to }: Curve): { readonly rise: number; readonly at: Point } {
  const apex = apexOf(exact, from, to);
  const frame = new ChordFrame(from, to);
  if (apex) return { rise: frame.height(apex.at), at: apex.at };
  const rise = frame.length * FIRST_RISE;
  return { rise, at: frame.place({ x: frame.length / 2, y: rise }) };
}
