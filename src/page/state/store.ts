import type { ShowLength } from '../../units/fault.ts';
import { defaultRule, type Rule, readOnRule, showLength, showOnRule } from '../../units/rule.ts';
import { NO_BREAK, typesetFractions } from '../../units/typeset.ts';
import type { Unit } from '../../units/unit.ts';
import { type EvaluatedJob, type Evaluation, evaluateJob, type JobDiagnostic } from './evaluate-job.ts';
import { endCoalescing, type History, pushJob, pushText, redo, startHistory, undo } from './undo-history.ts';

/** The hand rests when nothing has moved for so long, ms: shorter than a blink, longer than between two moves. */
const IDLE_MS = 140;

/**
 * What lies on the bench. The text of the job is all the state there is: parts, drawings and figures follow
 * from it. A drag tries texts, and only where the hand lets go one becomes a step.
 */
export class Store {
  private history: History;
  private evaluation: Evaluation;
  private pending: Evaluation | undefined;
  private pendingText: string | undefined;
  private rejected: readonly JobDiagnostic[] = [];
  private lastValid: EvaluatedJob | undefined;
  private displayUnit: Unit | undefined;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly changeListeners: (() => void)[] = [];
  private readonly idleListeners: (() => void)[] = [];

  constructor(text: string) {
    this.history = startHistory(text);
    this.evaluation = evaluateJob(text);
    this.lastValid = this.evaluation.evaluated;
  }

  /** Called at every change, in the frame it happens. */
  onChange(listener: () => void): void {
    this.changeListeners.push(listener);
  }

  /** Called once the hand rests: for what takes longer than a frame. */
  onIdle(listener: () => void): void {
    this.idleListeners.push(listener);
  }

  /** The job's text; while a drag tries one out, that one if it makes a part. */
  get text(): string {
    return this.pending ? (this.lastValid?.text ?? this.history.now.text) : this.history.now.text;
  }

  /** Which of the jobs that have lain on the bench, by number. */
  get jobNumber(): number {
    return this.history.now.jobNumber;
  }

  /** The last part that could be made; nothing where there has been none yet. */
  get evaluated(): EvaluatedJob | undefined {
    return this.lastValid;
  }

  /** What is wrong with the text, or with what the hand tries. */
  get faults(): readonly JobDiagnostic[] {
    return (this.pending ?? this.evaluation).faults;
  }

  /** All that is to be told: what the hand asked for last and could not have, and what is wrong. */
  get diagnostics(): readonly JobDiagnostic[] {
    return [...this.rejected, ...this.faults];
  }

  /** Whether the drawing shows the text, and not the last part before a mistake. */
  get isUpToDate(): boolean {
    return this.faults.length === 0;
  }

  /** Whether the text itself is sound, so that its points can be moved. */
  get canEdit(): boolean {
    return this.evaluation.evaluated !== undefined;
  }

  get canUndo(): boolean {
    return this.history.past.length > 0;
  }

  get canRedo(): boolean {
    return this.history.future.length > 0;
  }

  /** The rule that lengths are shown on: the job's own, or that of the other unit. */
  get rule(): Rule {
    const own = this.evaluated?.part.rule ?? defaultRule('in');
    return this.displayUnit === undefined || this.displayUnit === own.unit
      ? own
      : defaultRule(this.displayUnit);
  }

  /** On that rule, with its unit and without; a length is never broken between two lines. */
  readonly lengthText: ShowLength = (mm) => typesetLength(showLength(mm, this.rule));
  readonly ruleText: ShowLength = (mm) => typesetLength(showOnRule(mm, this.rule));

  /** Without a hair: nobody sets out a length along the line or a radius to one. */
  readonly roundedText: ShowLength = (mm) =>
    typesetLength(`${readOnRule(mm, this.rule).text} ${this.rule.unit}`);

  /** As a person types it, to the nearest graduation. */
  readonly inputText: ShowLength = (mm) => readOnRule(mm, this.rule).text;

  showIn(unit: Unit): void {
    this.displayUnit = unit;
    this.notify();
  }

  /** The text that is tried out, right or wrong. */
  get previewText(): string | undefined {
    return this.pendingText;
  }

  /** Tries a text while the hand moves. */
  preview(text: string): void {
    this.rejected = [];
    this.pendingText = text;
    this.pending = evaluateJob(text);
    if (this.pending.evaluated) this.lastValid = this.pending.evaluated;
    this.notify();
  }

  /** What the hand asked for cannot be: it is told until something else is asked. The text stays. */
  reject(faults: readonly JobDiagnostic[]): void {
    this.rejected = faults.map((fault) => ({ ...fault, position: undefined }));
    this.notify();
  }

  /** The hand lets go: the last part that could be made is the next step. Faults of a try are told no more. */
  commit(burst?: string): void {
    if (!this.pending) return;
    this.clearPreview();
    if (this.lastValid) this.history = pushText(this.history, this.lastValid.text, burst);
    if (this.lastValid) this.evaluation = { evaluated: this.lastValid, faults: [] };
    this.notify();
  }

  /** The next step, right or wrong; `burst` joins it to the one before. */
  push(text: string, burst?: string): void {
    this.applyHistory(pushText(this.history, text, burst));
  }

  /** The next step if it makes a part; otherwise nothing changes, and what is wrong is handed back. */
  pushIfValid(text: string, burst?: string): readonly JobDiagnostic[] {
    const { faults } = evaluateJob(text);
    if (faults.length === 0) this.push(text, burst);
    return faults;
  }

  /** Another job takes the place of this one: a step that goes back like any other. */
  startJob(text: string, burst?: string): void {
    this.applyHistory(pushJob(this.history, text, burst));
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

  private applyHistory(steps: History): void {
    this.clearPreview();
    if (steps.now.jobNumber !== this.jobNumber) this.displayUnit = undefined;
    this.history = steps;
    this.evaluation = evaluateJob(steps.now.text);
    if (this.evaluation.evaluated) this.lastValid = this.evaluation.evaluated;
    this.notify();
  }

  private clearPreview(): void {
    this.rejected = [];
    this.pending = undefined;
    this.pendingText = undefined;
  }

  /** Tells everyone how things stand. */
  notify(): void {
    for (const listener of this.changeListeners) listener();
    clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      for (const listener of this.idleListeners) listener();
    }, IDLE_MS);
  }
}

/** A length as the page shows it: real fractions, and never broken between two lines. */
const typesetLength = (shown: string): string =>
  typesetFractions(shown).replaceAll(' ', NO_BREAK).replace(/^-/, '−');
