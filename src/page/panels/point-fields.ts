import { editJob, inJobUnit } from '../../job/edit/edit-job.ts';
import type { Grip, GripLength } from '../../part/edit/draggable-points.ts';
import { Fault } from '../../units/fault.ts';
import { type Handles, namesOf } from '../canvas/handle-layer.ts';
import { el, put, write } from '../dom.ts';
import type { Bench } from '../state/store.ts';

interface Field {
  readonly input: HTMLInputElement;
  readonly wrong: HTMLElement;
  length: GripLength;
  /** The length as it stands, and its unit: most stay while one is dragged. */
  stands: string;
  /** Whether that is what is written in it; not while someone types. */
  isShown: boolean;
}

interface Row {
  readonly name: string;
  readonly fields: readonly Field[];
  grip: Grip;
}

/** A rise stands under neither heading: it is named beside its place. */
const titleOf = ({ name, fields: [first, second] }: Row): string =>
  first && !second ? `${name}: ${first.length.what}` : name;

/** Every place of the part with its lengths, to be typed as on a rule. */
export class SetOut {
  private rows: Row[] = [];
  private job: number | undefined;

  constructor(
    private readonly host: HTMLElement,
    private readonly bench: Bench,
    private readonly handles: Handles,
  ) {
    bench.changed(() => this.draw());
  }

  draw(): void {
    const { made, canMove } = this.bench;
    this.host.toggleAttribute('inert', !canMove);
    if (!made) return;
    const same =
      // What is half typed is of the part it was typed for.
      this.job === this.bench.job &&
      this.rows.length === made.grips.length &&
      this.rows.every(({ grip }, i) => grip.key === made.grips[i]!.key && grip.edge === made.grips[i]!.edge);
    if (!same) this.build(made.grips);
    for (const [i, row] of this.rows.entries()) this.fill(row, made.grips[i]!);
  }

  private build(grips: readonly Grip[]): void {
    const names = namesOf(grips);
    this.job = this.bench.job;
    this.rows = grips.map((grip, i) => this.rowOf(grip, names[i]!));
    const lines = this.rows.map((row) =>
      el(
        'div',
        { class: 'point' },
        el('span', { class: 'what' }, titleOf(row)),
        ...row.fields.map(({ input, wrong }) => el('label', {}, input, wrong)),
      ),
    );
    const heads = ['', 'station', 'offset'].map((head) => el('span', { class: 'what' }, head));
    this.host.replaceChildren(el('div', { class: 'point', 'aria-hidden': 'true' }, ...heads), ...lines);
  }

  private rowOf(grip: Grip, name: string): Row {
    // The other edge's square end follows: its station is not typed a second time.
    const own = grip.sets.filter(({ key }) => key.startsWith(grip.key));
    const row: Row = { name, grip, fields: own.map((length) => this.fieldOf(length, () => row)) };
    return row;
  }

  private fieldOf(length: GripLength, row: () => Row): Field {
    const input = el('input', {
      type: 'text',
      autocomplete: 'off',
      spellcheck: 'false',
      inputmode: 'text',
      placeholder: length.what,
    });
    const wrong = el('span', { class: 'wrong', role: 'alert' });
    const field: Field = { input, wrong, length, stands: '', isShown: false };
    input.addEventListener('focus', () => this.handles.point(row().grip.key));
    input.addEventListener('blur', () => {
      this.handles.point(undefined);
      this.fill(row(), row().grip);
    });
    input.addEventListener('change', () => this.typed(row(), field));
    input.addEventListener('keydown', (event) => {
      if (event.key !== 'Escape') return;
      this.tell(field, '');
      input.value = this.shown(field);
    });
    return field;
  }

  private typed({ grip }: Row, field: Field): void {
    const { made, rule, length } = this.bench;
    const { input } = field;
    if (!made) return;
    if (input.value.trim() === this.shown(field)) {
      this.tell(field, '');
      return;
    }
    try {
      const typed = inJobUnit(input.value, rule.unit, made.part.rule.unit);
      const keys =
        field.length.what === 'station' ? grip.sets.filter(({ what }) => what === 'station') : [field.length];
      const [fault] = this.bench.stepIfSound(
        editJob(
          made.text,
          keys.map(({ key }) => ({ key, typed })),
        ),
      );
      this.tell(field, fault ? fault.message(length) : '');
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      this.tell(field, error.messageIn(length));
    }
  }

  private tell({ input, wrong }: Field, message: string): void {
    write(wrong, message);
    put(input, 'aria-invalid', String(message !== ''));
  }

  private fill(row: Row, grip: Grip): void {
    row.grip = grip;
    row.fields.forEach((field, i) => {
      field.length = grip.sets[i]!;
      const { what, mm } = field.length;
      const now = `${mm} ${this.bench.rule.unit}`;
      if (now !== field.stands) {
        field.stands = now;
        field.isShown = false;
        // What was typed wrong stays beside its reason until the place is another.
        this.tell(field, '');
        put(field.input, 'aria-label', `${row.name}: ${what}, ${this.bench.rule.unit}`);
      }
      if (field.isShown || document.activeElement === field.input) return;
      field.isShown = true;
      field.input.value = this.shown(field);
    });
  }

  private readonly shown = ({ length: { mm } }: Field): string => this.bench.plain(mm);
}
