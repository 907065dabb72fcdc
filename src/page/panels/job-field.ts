import { removeValue, setValue, valueAt } from '../../job/edit/set-value.ts';
import { el, updateAttribute, updateText } from '../dom.ts';
import type { JobDiagnostic } from '../state/evaluate-job.ts';
import type { Store } from '../state/store.ts';

/** What a field shows and changes in the text of the job. */
export interface JobField {
  readonly label: string;
  /** As it is in the text; '' where it says nothing. */
  read(text: string): string;
  /** The text with another value; '' takes the value away. */
  write(text: string, typed: string): string;
  /** To choose from; absent for a value to type. */
  readonly choices?: readonly { readonly value: string; readonly label: string }[];
  /** The id of a list of suggestions. */
  readonly list?: string;
}

/** A value at one key of the job, as typed there: `stock.species`. */
export const keyField = (
  label: string,
  key: string,
  more: Pick<JobField, 'choices' | 'list'> = {},
): JobField => ({
  label,
  read: (text) => {
    const value = valueAt(text, key);
    return typeof value === 'string' ? value : '';
  },
  write: (text, typed) => (typed === '' ? removeValue(text, key) : setValue(text, key, typed)),
  ...more,
});

/** The fields of one group, which follow the text of the job. A wrong value stays in its field, with its message. */
export class JobFields {
  private rows: {
    readonly field: JobField;
    readonly input: HTMLInputElement | HTMLSelectElement;
    readonly wrong: HTMLElement;
  }[] = [];

  constructor(
    private readonly host: HTMLElement,
    private readonly store: Store,
  ) {}

  show(fields: readonly JobField[]): void {
    this.rows = fields.map((field, i) => this.rowOf(field, `${this.host.id}-${i}`));
    this.host.replaceChildren(
      ...this.rows.map(({ field, input, wrong }) =>
        el(
          'div',
          { class: 'field' },
          el('label', { class: 'what', for: input.id }, field.label),
          input,
          wrong,
        ),
      ),
    );
    this.fill();
  }

  /** A text with mistakes has no values to show: the fields wait until it is a part again. */
  fill(): void {
    const { text, isUpToDate } = this.store;
    if (!isUpToDate) return;
    for (const { field, input, wrong } of this.rows) {
      if (document.activeElement === input && input instanceof HTMLInputElement) continue;
      const now = field.read(text);
      if (input.value === now) continue;
      input.value = now;
      updateText(wrong, '');
      updateAttribute(input, 'aria-invalid', 'false');
    }
  }

  private rowOf(field: JobField, id: string) {
    const wrong = el('span', { class: 'wrong', role: 'alert' });
    const input = field.choices
      ? el('select')
      : el('input', { type: 'text', autocomplete: 'off', spellcheck: 'false' });
    for (const { value, label } of field.choices ?? []) input.append(el('option', { value }, label));
    input.id = id;
    if (field.list !== undefined) input.setAttribute('list', field.list);
    input.addEventListener('change', () => {
      const typed = input.value.trim();
      if (!this.store.isUpToDate || typed === field.read(this.store.text)) return;
      const [mistake] = this.store.pushIfValid(field.write(this.store.text, typed));
      this.showMistake(input, wrong, mistake);
    });
    return { field, input, wrong };
  }

  private showMistake(input: HTMLElement, wrong: HTMLElement, mistake: JobDiagnostic | undefined): void {
    updateText(wrong, mistake?.message(this.store.lengthText) ?? '');
    updateAttribute(input, 'aria-invalid', String(mistake !== undefined));
  }
}
