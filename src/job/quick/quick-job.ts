import { point } from '../../curves/geometry/point.ts';
import { capitalize } from '../../units/number-format.ts';
import { defaultRule, parseGraduation } from '../../units/rule.ts';
import { type Unit, withUnit } from '../../units/unit.ts';
import type { Job } from '../job.ts';
import { JOB_UNITS } from '../parse/read-values.ts';
import type { StepKind } from '../steps/step-kind.ts';
import { aStep, type EdgeStep, STEP_KINDS, STEP_NAMES, type StepKindName } from '../steps/step-kinds.ts';
import { QuickOptionReader, type QuickOptions } from './quick-options.ts';

export type { QuickOptions } from './quick-options.ts';

const QUICK_CURVES = STEP_NAMES.filter((kind) => 'quick' in STEP_KINDS[kind]);

/** Later faults of a quick line are reported at this option. */
const QUICK_KEY = '--curve';

/** The job of a quick line: one edge from [0, 0] to [chord, 0]. @throws Faults each with its option as the key */
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
  const part = nameFromOptions(options, unit);
  return { part, rule, quantity: 1, edges: [edge], joints: [], sawAllowance: 0 };
}

function readQuickStep(line: QuickOptionReader, kind: StepKindName, chord: number | undefined, unit: Unit) {
  const { quick }: StepKind<object> = STEP_KINDS[kind];
  for (const option of ['nail', 'radius', 'ends', 'strip'] as const)
    if (!quick?.options.includes(option))
      line.refuse(option, `${aStep(kind)} does not use this option. Remove it.`);
  // The rest is read for its faults even where the chord could not be read.
  const fields = quick?.read(line, chord, unit);
  return fields && ({ kind, ...fields, to: point(chord ?? 0, 0), key: QUICK_KEY } as EdgeStep);
}

const HAS_UNIT = /[\p{L}'"′″’”]/u;

/** "Batten 28\", rise 3/4\"". */
function nameFromOptions({ curve, chord, rise, nail, radius }: QuickOptions, unit: Unit): string {
  const shown = (typed = ''): string => (HAS_UNIT.test(typed) ? typed.trim() : withUnit(typed.trim(), unit));
  const kind = capitalize(curve);
  if (radius !== undefined) return `${kind} ${shown(chord)}, radius ${shown(radius)}`;
  const at = nail === undefined ? '' : ` at ${shown(nail)}`;
  return `${kind} ${shown(chord)}, rise ${shown(rise)}${at}`;
}
