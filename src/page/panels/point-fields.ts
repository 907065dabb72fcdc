import { editJob, withJobUnit } from '../../job/edit/edit-job.ts';
import type { Grip, GripLength } from '../../part/edit/draggable-points.ts';
import { itemAt } from '../../units/checked.ts';
import { Fault } from '../../units/fault.ts';
import { type HandleLayer, handleNames } from '../canvas/handle-layer.ts';
import { el, updateAttribute, updateText } from '../dom.ts';
import type { Store } from '../state/store.ts';

interface LengthField {
  readonly input: HTMLInputElement;
  readonly wrong: HTMLElement;
  length: GripLength;
  lastValue: string;
  /** Whether the field shows this value; false while someone types in it. */
  isShown: boolean;
}

interface PointRow {
  readonly name: string;
  readonly fields: readonly LengthField[];
  grip: Grip;
}

/** A rise belongs to neither column, so its name is shown beside it. */
const titleOf = ({ name, fields: [first, second] }: PointRow): string =>
  first && !second ? `${name}: ${first.length.what}` : name;

export class PointFields {
  private rows: PointRow[] = [];
  private job: number | undefined;

  constructor(
    private readonly host: HTMLElement,
    private readonly store: Store,
    private readonly handleLayer: HandleLayer,
  ) {
    store.onChange(() => this.draw());
  }

  draw(): void {
    const { evaluated, canEdit } = this.store;
    this.host.toggleAttribute('inert', !canEdit);
    if (!evaluated) return;
    const { handles } = evaluated;
    const isSame =
      // A half-typed value belongs to the part that it was typed for.
      this.job === this.store.jobNumber &&
      this.rows.length === handles.length &&
      this.rows.every(({ grip }, i) => grip.key === handles[i]?.key && grip.edge === handles[i]?.edge);
    if (!isSame) this.buildRows(handles);
    for (const [i, row] of this.rows.entries()) this.fill(row, itemAt(handles, i));
  }

  private buildRows(grips: readonly Grip[]): void {
    const names = handleNames(grips);
    this.job = this.store.jobNumber;
    this.rows = grips.map((grip, i) => this.rowOf(grip, itemAt(names, i)));
    const lines = this.rows.map((row) => {
      const labels = row.fields.map(({ input, wrong }) => el('label', {}, input, wrong));
      return el('div', { class: 'point' }, el('span', { class: 'what' }, titleOf(row)), ...labels);
    });
    const heads = ['', 'station', 'offset'].map((head) => el('span', { class: 'what' }, head));
    this.host.replaceChildren(el('div', { class: 'point', 'aria-hidden': 'true' }, ...heads), ...lines);
  }

  private rowOf(grip: Grip, name: string): PointRow {
    // The square end of the other edge follows, so its station has no field of its own.
    const own = grip.sets.filter(({ key }) => key.startsWith(grip.key));
    const row: PointRow = { name, grip, fields: own.map((length) => this.fieldOf(length, () => row)) };
    return row;
  }

  private fieldOf(length: GripLength, row: () => PointRow): LengthField {
    const attributes = { type: 'text', autocomplete: 'off', spellcheck: 'false', inputmode: 'text' };
    const input = el('input', { ...attributes, placeholder: length.what });
    const wrong = el('span', { class: 'wrong', role: 'alert' });
    const field: LengthField = { input, wrong, length, lastValue: '', isShown: false };
    input.addEventListener('focus', () => this.handleLayer.hold(row().grip.key));
    input.addEventListener('blur', () => {
      this.handleLayer.hold(undefined);
      this.fill(row(), row().grip);
    });
    input.addEventListener('change', () => this.applyInput(row(), field));
    input.addEventListener('keydown', (event) => {
      if (event.key !== 'Escape') return;
      this.showError(field, '');
      input.value = this.inputText(field);
    });
    return field;
  }

  private applyInput({ grip }: PointRow, field: LengthField): void {
    const { evaluated, rule, lengthText } = this.store;
    const { input, length } = field;
    if (!evaluated) return;
    if (input.value.trim() === this.inputText(field)) {
      this.showError(field, '');
      return;
    }
    try {
      const typed = withJobUnit(input.value, rule.unit, evaluated.part.rule.unit);
      const lengths =
        length.what === 'station' ? grip.sets.filter(({ what }) => what === 'station') : [length];
      const edits = lengths.map(({ key }) => ({ key, typed }));
      const [fault] = this.store.pushIfValid(editJob(evaluated.text, edits));
      this.showError(field, fault?.message(lengthText) ?? '');
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      this.showError(field, error.messageIn(lengthText));
    }
  }

  private showError({ input, wrong }: LengthField, message: string): void {
    updateText(wrong, message);
    updateAttribute(input, 'aria-invalid', String(message !== ''));
  }

  private fill(row: PointRow, grip: Grip): void {
    row.grip = grip;
    row.fields.forEach((field, i) => {
      field.length = itemAt(grip.sets, i);
      const { what, mm } = field.length;
      const now = `${mm} ${this.store.rule.unit}`;
      if (now !== field.lastValue) {
        field.lastValue = now;
        field.isShown = false;
        // A wrong value stays beside its message until the point changes.
        this.showError(field, '');
        updateAttribute(field.input, 'aria-label', `${row.name}: ${what}, ${this.store.rule.unit}`);
      }
      if (field.isShown || document.activeElement === field.input) return;
      field.isShown = true;
      field.input.value = this.inputText(field);
    });
  }

  private readonly inputText = ({ length: { mm } }: LengthField): string => this.store.inputText(mm);
}
