import type { Curve } from '../../curves/curve.ts';
import { changeKind, isHeldAt, setHeldEnds, splitLine } from '../../job/edit/change-kind.ts';
import { removeValue, valueAt } from '../../job/edit/set-value.ts';
import { STEP_NAMES, type StepKindName } from '../../job/steps/step-kinds.ts';
import { byId, el } from '../dom.ts';
import type { EvaluatedJob } from '../state/evaluate-job.ts';
import type { Store } from '../state/store.ts';
import { type JobField, JobFields } from './job-field.ts';

const KIND_LABELS: Readonly<Record<StepKindName, string>> = {
  line: 'straight',
  arc: 'arc of a circle',
  batten: 'batten, bent over nails',
  bow: 'bow, bent by a string',
  spline: 'spline, through points',
  ellipse: 'half ellipse',
};

interface CurveStep {
  readonly key: string;
  readonly label: string;
  readonly run: Curve;
  readonly isAlone: boolean;
}

/** The kind of each curve, how its ends are held, and the commands that split or remove a step. */
export class CurvePanel {
  private readonly select = byId<HTMLSelectElement>('curve-step');
  private readonly fields: JobFields;
  private readonly split = byId<HTMLButtonElement>('curve-split');
  private readonly remove = byId<HTMLButtonElement>('curve-remove');
  private shown = '';

  constructor(private readonly store: Store) {
    this.fields = new JobFields(byId('curve-fields'), store);
    this.select.addEventListener('change', () => this.draw());
    this.split.addEventListener('click', () => {
      const [step, evaluated] = [this.chosen, store.evaluated];
      if (step && evaluated)
        this.store.pushOrReject(splitLine(store.text, step.key, step.run, evaluated.part.rule));
    });
    this.remove.addEventListener('click', () => {
      const step = this.chosen;
      if (step) this.store.pushOrReject(removeValue(store.text, step.key));
    });
    store.onChange(() => this.draw());
  }

  private get chosen(): CurveStep | undefined {
    const steps = stepsOf(this.store.evaluated);
    return steps.find(({ key }) => key === this.select.value) ?? steps[0];
  }

  private draw(): void {
    // A drag changes no kind.
    if (!this.store.evaluated || this.store.previewText !== undefined) return;
    this.showSteps();
    const step = this.chosen;
    const shown = step ? `${step.key} ${step.run.kind}` : '';
    if (shown === this.shown) this.fields.fill();
    else this.fields.show(step ? this.fieldsOf(step) : []);
    this.shown = shown;
    this.split.disabled = step?.run.kind !== 'line';
    this.remove.disabled = !step || step.isAlone;
  }

  private showSteps(): void {
    const steps = stepsOf(this.store.evaluated);
    const now = [...this.select.options].map(({ value, text }) => `${value} ${text}`).join();
    if (now === steps.map(({ key, label }) => `${key} ${label}`).join()) return;
    const { value } = this.select;
    this.select.replaceChildren(...steps.map(({ key, label }) => el('option', { value: key }, label)));
    // The first curve is what most makers came to change.
    const kept =
      steps.find(({ key }) => key === value) ?? steps.find(({ run }) => run.kind !== 'line') ?? steps[0];
    this.select.value = kept?.key ?? '';
  }

  private fieldsOf({ key, run }: CurveStep): readonly JobField[] {
    const now = (): CurveStep | undefined => stepsOf(this.store.evaluated).find((step) => step.key === key);
    const kind: JobField = {
      label: 'kind',
      choices: STEP_NAMES.map((value) => ({ value, label: KIND_LABELS[value] })),
      read: (text) => STEP_NAMES.find((name) => name in (Object(valueAt(text, key)) as object)) ?? '',
      write: (text, typed) => {
        const name = STEP_NAMES.find((one) => one === typed);
        return name ? changeKind(text, key, name, now()?.run ?? run, this.store.shown.part.rule) : text;
      },
    };
    if (run.kind !== 'batten' && run.kind !== 'spline') return [kind];
    const free = run.kind === 'batten' ? 'free' : 'natural';
    return [kind, heldField(key, 0, free), heldField(key, 1, free)];
  }
}

const heldField = (key: string, end: 0 | 1, free: string): JobField => ({
  label: end === 0 ? 'left end of the curve' : 'right end of the curve',
  choices: [
    { value: free, label: free },
    { value: 'held', label: 'held' },
  ],
  read: (text) => (isHeldAt(text, key)[end] ? 'held' : free),
  write: (text, typed) => {
    const [start, last] = isHeldAt(text, key);
    return setHeldEnds(text, key, end === 0 ? [typed === 'held', last] : [start, typed === 'held']);
  },
});

function stepsOf(evaluated: EvaluatedJob | undefined): readonly CurveStep[] {
  return (evaluated?.part.edges ?? []).flatMap(({ name, key, runs, parallel }) => {
    if (parallel) return [];
    return runs.map((run, i): CurveStep => {
      const label = runs.length > 1 ? `${name}, ${i + 1} of ${runs.length}` : name;
      return { key: `${key}[${i + 1}]`, label, run, isAlone: runs.length === 1 };
    });
  });
}
