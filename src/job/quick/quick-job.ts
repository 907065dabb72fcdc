import { point } from '../../curves/geometry/point.ts';
import { capitalize } from '../../units/number-format.ts';
import { defaultRule, parseGraduation } from '../../units/rule.ts';
import type { Unit } from '../../units/unit.ts';
import type { EdgeStep, EndConditions, Job } from '../job.ts';
import { JOB_UNITS } from '../parse/unit-word.ts';
import { QuickOptionReader, type QuickOptions } from './quick-options.ts';

export type { QuickOptions } from './quick-options.ts';

const QUICK_CURVES = ['arc', 'batten', 'bow', 'spline', 'ellipse'] as const;
type QuickCurve = (typeof QUICK_CURVES)[number];

/** Where later faults of a quick line are reported: the whole of it is one curve. */
const QUICK_KEY = '--curve';

/**
 * The job of a quick line: one edge from [0, 0] to [chord, 0].
 *
 * @throws Faults every mistake of the line, each with its option as the key
 */
export function quickJob(options: QuickOptions): Job {
  const line = new QuickOptionReader(options);
  const curve = line.readWord('curve', QUICK_CURVES);
  const unit = line.readWord('units', JOB_UNITS) ?? 'in';
  const chord = line.readLength('chord', unit, 'positive');
  const { graduation } = options;
  const rule = line.attempt('graduation', () =>
    graduation === undefined ? defaultRule(unit) : parseGraduation(graduation, unit),
  );
  const step = curve && readQuickStep(line, curve, chord, unit);
  line.throwIfAny();
  if (!step || !rule) throw new Error('a quick line that could not be read must have a fault');
  const edge = { name: 'curve', from: point(0, 0), steps: [step] as const, key: QUICK_KEY };
  return {
    part: nameFromOptions(options, unit),
    rule,
    quantity: 1,
    edges: [edge],
    joints: [],
    sawAllowance: 0,
  };
}

function readQuickStep(
  line: QuickOptionReader,
  curve: QuickCurve,
  chord: number | undefined,
  unit: Unit,
): EdgeStep | undefined {
  // A chord that could not be read has its fault already: the rest is read for faults of its own.
  const step = { to: point(chord ?? 0, 0), key: QUICK_KEY };
  const fits = OPTIONS_OF_CURVE[curve];
  for (const option of ['nail', 'radius', 'ends', 'strip'] as const)
    if (!fits.includes(option))
      line.refuse(option, `${/^[aeo]/.test(curve) ? 'an' : 'a'} ${curve} has none. Leave it out.`);
  if (curve === 'arc' && line.has('radius')) return readRadius(line, unit, step);
  const rise = line.requireLength('rise', unit);
  const nail = fits.includes('nail') ? line.readNail(chord, unit) : undefined;
  const ends = readEndConditions(line, curve);
  const strip = line.has('strip') && fits.includes('strip') ? line.readTaper(unit) : undefined;
  if (rise === undefined || !ends) return undefined;
  if (curve === 'bow' || curve === 'ellipse') return { ...step, kind: curve, rise };
  if (nail === undefined) return undefined;
  const pin = point(nail, rise);
  if (curve === 'spline') return { ...step, kind: 'spline', through: [pin], ends };
  if (curve === 'arc') return { ...step, kind: 'arc', by: line.has('nail') ? { through: pin } : { rise } };
  const by = line.has('nail') ? { through: [pin] as const } : { apex: pin };
  return { ...step, kind: 'batten', by, ends, ...(strip && { strip }) };
}

/** The options that say something of each kind of curve, besides chord and rise. */
const OPTIONS_OF_CURVE: Readonly<Record<QuickCurve, readonly (keyof QuickOptions)[]>> = {
  arc: ['nail', 'radius'],
  batten: ['nail', 'ends', 'strip'],
  bow: [],
  spline: ['nail', 'ends'],
  ellipse: [],
};

function readRadius(
  line: QuickOptionReader,
  unit: Unit,
  step: Pick<EdgeStep, 'to' | 'key'>,
): EdgeStep | undefined {
  line.refuse('rise', 'rise and radius exclude each other. Keep one of them.');
  line.refuse('nail', 'a nail and a radius exclude each other. Keep one of them.');
  const radius = line.requireLength('radius', unit);
  return radius === undefined ? undefined : { ...step, kind: 'arc', by: { radius } };
}

/** One word for both ends, or a pair such as "held, free". */
function readEndConditions(line: QuickOptionReader, curve: QuickCurve): EndConditions | undefined {
  if (!OPTIONS_OF_CURVE[curve].includes('ends')) return ['free', 'free'];
  const free = curve === 'batten' ? 'free' : 'natural';
  return line.ends([free, 'held']);
}

/** A unit typed with its length: letters, or the signs for feet and inches. */
const HAS_UNIT = /[\p{L}'"′″’”]/u;

/** "Batten 28 in, rise 3/4 in". */
function nameFromOptions({ curve, chord, rise, nail, radius }: QuickOptions, unit: Unit): string {
  const shown = (typed = ''): string => (HAS_UNIT.test(typed) ? typed.trim() : `${typed.trim()} ${unit}`);
  const kind = capitalize(curve);
  if (radius !== undefined) return `${kind} ${shown(chord)}, radius ${shown(radius)}`;
  const at = nail === undefined ? '' : ` at ${shown(nail)}`;
  return `${kind} ${shown(chord)}, rise ${shown(rise)}${at}`;
}
