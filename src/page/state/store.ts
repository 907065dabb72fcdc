import type { ShowLength } from '../../units/fault.ts';
import { defaultRule, type Rule, readOnRule, showLength, showNearest, showOnRule } from '../../units/rule.ts';
import { NO_BREAK, typesetMeasures } from '../../units/typeset.ts';
import type { Unit } from '../../units/unit.ts';
import { type EvaluatedJob, type Evaluation, evaluateJob, type JobDiagnostic } from './evaluate-job.ts';
import { endCoalescing, type History, pushJob, pushText, redo, startHistory, undo } from './undo-history.ts';

/** Idle time after the last change, ms: shorter than a blink, longer than between two moves. */
const IDLE_MS = 140;

/** The job text is all the state there is: part, drawing and figures follow from it. A drag previews texts. */
export class Store {
  private history: History;
  private evaluation: Evaluation;
  private pending: (Evaluation & { readonly text: string }) | undefined;
  private rejected: readonly JobDiagnostic[] = [];
  evaluated: EvaluatedJob | undefined;
  private displayUnit: Unit | undefined;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly changeListeners: (() => void)[] = [];
  private readonly idleListeners: (() => void)[] = [];

  constructor(text: string) {
    this.history = startHistory(text);
    this.evaluation = evaluateJob(text);
    this.evaluated = this.evaluation.evaluated;
  }

  onChange(listener: () => void): void {
    this.changeListeners.push(listener);
  }

  /** For work that takes longer than a frame. */
  onIdle(listener: () => void): void {
    this.idleListeners.push(listener);
  }

  /** The job's text; during a drag the previewed text, if it is valid. */
  get text(): string {
    return (this.pending && this.evaluated?.text) ?? this.history.now.text;
  }

  get jobNumber(): number {
    return this.history.now.jobNumber;
  }

  /** The last valid part, for what is shown only where there is one. */
  get shown(): EvaluatedJob {
    if (!this.evaluated) throw new Error('no part has been made yet');
    return this.evaluated;
  }

  get faults(): readonly JobDiagnostic[] {
    return (this.pending ?? this.evaluation).faults;
  }

  /** All messages: the last rejected action, then mistakes in the job. */
  get diagnostics(): readonly JobDiagnostic[] {
    return [...this.rejected, ...this.faults];
  }

  /** True if the drawing matches the text (not the last valid part). */
  get isUpToDate(): boolean {
    return this.faults.length === 0;
  }

  /** Whether the text itself is valid, not a preview of it. */
  get canEdit(): boolean {
    return this.evaluation.evaluated !== undefined;
  }

  get canUndo(): boolean {
    return this.history.past.length > 0;
  }

  get canRedo(): boolean {
    return this.history.future.length > 0;
  }

  /** The job's own rule, or that of the unit chosen on the page. */
  get rule(): Rule {
    const own = this.evaluated?.part.rule ?? defaultRule('in');
    const unit = this.displayUnit ?? own.unit;
    return unit === own.unit ? own : defaultRule(unit);
  }

  readonly lengthText: ShowLength = (mm) => typesetLength(showLength(mm, this.rule));
  readonly ruleText: ShowLength = (mm) => typesetLength(showOnRule(mm, this.rule));

  /** Without "full" or "scant": lengths along a curve and radii need no such precision. */
  readonly roundedText: ShowLength = (mm) => typesetLength(showNearest(mm, this.rule));

  readonly inputText: ShowLength = (mm) => readOnRule(mm, this.rule).text;

  showIn(unit: Unit): void {
    this.displayUnit = unit;
    this.notify();
  }

  get previewText(): string | undefined {
    return this.pending?.text;
  }

  preview(text: string): void {
    this.rejected = [];
    this.pending = { text, ...evaluateJob(text) };
    if (this.pending.evaluated) this.evaluated = this.pending.evaluated;
    this.notify();
  }

  /** Reports a rejected action until the next one. The text stays. */
  reject(faults: readonly JobDiagnostic[]): void {
    this.rejected = faults.map((fault) => ({ ...fault, position: undefined }));
    this.notify();
  }

  /** Ends a drag: the last valid preview becomes the next step. */
  commit(coalesceKey?: string): void {
    if (!this.pending) return;
    this.clearPreview();
    if (this.evaluated) {
      this.history = pushText(this.history, this.evaluated.text, coalesceKey);
      this.evaluation = { evaluated: this.evaluated, faults: [] };
    }
    this.notify();
  }

  push(text: string, coalesceKey?: string): void {
    this.applyHistory(pushText(this.history, text, coalesceKey));
  }

  /** Adds a step if it is valid, and returns the mistakes otherwise. */
  pushIfValid(text: string): readonly JobDiagnostic[] {
    const { faults } = evaluateJob(text);
    if (faults.length === 0) this.push(text);
    return faults;
  }

  /** Adds a step if it is valid, else reports its mistakes. */
  pushOrReject(text: string): boolean {
    const faults = this.pushIfValid(text);
    if (faults.length > 0) this.reject(faults);
    return faults.length === 0;
  }

  startJob(text: string, coalesceKey?: string): void {
    this.applyHistory(pushJob(this.history, text, coalesceKey));
  }

  undo(): void {
    this.applyHistory(undo(this.history));
  }

  redo(): void {
    this.applyHistory(redo(this.history));
  }

  endCoalescing(): void {
    this.history = endCoalescing(this.history);
  }

  private applyHistory(history: History): void {
    this.clearPreview();
    if (history.now.jobNumber !== this.jobNumber) this.displayUnit = undefined;
    this.history = history;
    this.evaluation = evaluateJob(history.now.text);
    if (this.evaluation.evaluated) this.evaluated = this.evaluation.evaluated;
    this.notify();
  }

  private clearPreview(): void {
    this.rejected = [];
    this.pending = undefined;
  }

  notify(): void {
    for (const listener of this.changeListeners) listener();
    clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      for (const listener of this.idleListeners) listener();
    }, IDLE_MS);
  }
}

/** A length for the page: real fractions, and no line break inside. */
const typesetLength = (shown: string): string => typesetMeasures(shown).replaceAll(' ', NO_BREAK);
