import type { ShowLength } from '../../units/fault.ts';
import { defaultRule, type Rule, readOnRule, showLength, showOnRule } from '../../units/rule.ts';
import { NO_BREAK, typesetFractions } from '../../units/typeset.ts';
import type { Unit } from '../../units/unit.ts';
import { type Made, type Told, type Worked, workOut } from './evaluate-job.ts';
import { another, back, begun, forward, type History, rested, stepped } from './undo-history.ts';

/** The hand rests when nothing has moved for so long, ms: shorter than a blink, longer than between two moves. */
const REST_MS = 140;

/**
 * What lies on the bench. The text of the job is all the state there is: parts, drawings and figures follow
 * from it. A drag tries texts, and only where the hand lets go one becomes a step.
 */
export class Bench {
  private steps: History;
  private worked: Worked;
  private trial: Worked | undefined;
  private trying: string | undefined;
  private refused: readonly Told[] = [];
  private lastGood: Made | undefined;
  private shownIn: Unit | undefined;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly onChange: (() => void)[] = [];
  private readonly onRest: (() => void)[] = [];

  constructor(text: string) {
    this.steps = begun(text);
    this.worked = workOut(text);
    this.lastGood = this.worked.made;
  }

  /** Called at every change, in the frame it happens. */
  changed(listener: () => void): void {
    this.onChange.push(listener);
  }

  /** Called once the hand rests: for what takes longer than a frame. */
  rests(listener: () => void): void {
    this.onRest.push(listener);
  }

  /** The job's text; while a drag tries one out, that one if it makes a part. */
  get text(): string {
    return this.trial ? (this.lastGood?.text ?? this.steps.now.text) : this.steps.now.text;
  }

  /** Which of the jobs that have lain on the bench, by number. */
  get job(): number {
    return this.steps.now.job;
  }

  /** The last part that could be made; nothing where there has been none yet. */
  get made(): Made | undefined {
    return this.lastGood;
  }

  /** What is wrong with the text, or with what the hand tries. */
  get faults(): readonly Told[] {
    return (this.trial ?? this.worked).faults;
  }

  /** All that is to be told: what the hand asked for last and could not have, and what is wrong. */
  get told(): readonly Told[] {
    return [...this.refused, ...this.faults];
  }

  /** Whether the drawing shows the text, and not the last part before a mistake. */
  get isTrue(): boolean {
    return this.faults.length === 0;
  }

  /** Whether the text itself is sound, so that its points can be moved. */
  get canMove(): boolean {
    return this.worked.made !== undefined;
  }

  get canGoBack(): boolean {
    return this.steps.past.length > 0;
  }

  get canGoForward(): boolean {
    return this.steps.future.length > 0;
  }

  /** The rule that lengths are shown on: the job's own, or that of the other unit. */
  get rule(): Rule {
    const own = this.made?.part.rule ?? defaultRule('in');
    return this.shownIn === undefined || this.shownIn === own.unit ? own : defaultRule(this.shownIn);
  }

  /** On that rule, with its unit and without; a length is never broken between two lines. */
  readonly length: ShowLength = (mm) => unbroken(showLength(mm, this.rule));
  readonly bare: ShowLength = (mm) => unbroken(showOnRule(mm, this.rule));

  /** Without a hair: nobody sets out a length along the line or a radius to one. */
  readonly about: ShowLength = (mm) => unbroken(`${readOnRule(mm, this.rule).text} ${this.rule.unit}`);

  /** As a person types it, to the nearest graduation. */
  readonly plain: ShowLength = (mm) => readOnRule(mm, this.rule).text;

  showIn(unit: Unit): void {
    this.shownIn = unit;
    this.tell();
  }

  /** The text that is tried out, right or wrong. */
  get tried(): string | undefined {
    return this.trying;
  }

  /** Tries a text while the hand moves. */
  try(text: string): void {
    this.refused = [];
    this.trying = text;
    this.trial = workOut(text);
    if (this.trial.made) this.lastGood = this.trial.made;
    this.tell();
  }

  /** What the hand asked for cannot be: it is told until something else is asked. The text stays. */
  refuse(faults: readonly Told[]): void {
    this.refused = faults.map((fault) => ({ ...fault, place: undefined }));
    this.tell();
  }

  /** The hand lets go: the last part that could be made is the next step. Faults of a try are told no more. */
  letGo(burst?: string): void {
    if (!this.trial) return;
    this.forget();
    if (this.lastGood) this.steps = stepped(this.steps, this.lastGood.text, burst);
    if (this.lastGood) this.worked = { made: this.lastGood, faults: [] };
    this.tell();
  }

  /** The next step, right or wrong; `burst` joins it to the one before. */
  step(text: string, burst?: string): void {
    this.take(stepped(this.steps, text, burst));
  }

  /** The next step if it makes a part; otherwise nothing changes, and what is wrong is handed back. */
  stepIfSound(text: string, burst?: string): readonly Told[] {
    const { faults } = workOut(text);
    if (faults.length === 0) this.step(text, burst);
    return faults;
  }

  /** Another job takes the place of this one: a step that goes back like any other. */
  start(text: string, burst?: string): void {
    this.take(another(this.steps, text, burst));
  }

  back(): void {
    this.take(back(this.steps));
  }

  forward(): void {
    this.take(forward(this.steps));
  }

  endBurst(): void {
    this.steps = rested(this.steps);
  }

  private take(steps: History): void {
    this.forget();
    if (steps.now.job !== this.job) this.shownIn = undefined;
    this.steps = steps;
    this.worked = workOut(steps.now.text);
    if (this.worked.made) this.lastGood = this.worked.made;
    this.tell();
  }

  private forget(): void {
    this.refused = [];
    this.trial = undefined;
    this.trying = undefined;
  }

  /** Tells everyone how things stand. */
  tell(): void {
    for (const listener of this.onChange) listener();
    clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      for (const listener of this.onRest) listener();
    }, REST_MS);
  }
}

/** A length as the page shows it: real fractions, and never broken between two lines. */
const unbroken = (shown: string): string =>
  typesetFractions(shown).replaceAll(' ', NO_BREAK).replace(/^-/, '−');
