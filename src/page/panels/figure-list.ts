import type { Highlight } from '../canvas/highlight.ts';
import { el, updateText } from '../dom.ts';
import type { FigureText } from './figure-values.ts';

interface FigureRow {
  readonly row: HTMLElement;
  readonly label: HTMLElement;
  readonly value: HTMLElement;
  figure: FigureText;
}

/** Rows are reused from frame to frame, so that none loses the keyboard focus. */
export class FigureList {
  private readonly rows = new Map<string, FigureRow>();

  constructor(
    private readonly host: HTMLElement,
    private readonly highlight: Highlight,
  ) {}

  show(figures: readonly FigureText[]): void {
    const ids = new Set(figures.map(({ id }) => id));
    for (const [id, { row }] of this.rows) {
      if (ids.has(id)) continue;
      row.remove();
      this.rows.delete(id);
    }
    for (const [i, figure] of figures.entries()) {
      const made = this.rows.get(figure.id) ?? this.addRow(figure);
      made.figure = figure;
      updateText(made.label, figure.label);
      updateText(made.value, figure.value);
      made.row.classList.toggle('warning', figure.isWarning ?? false);
      const before = this.host.children[i] ?? null;
      if (before !== made.row) this.host.insertBefore(made.row, before);
    }
    this.highlight.refresh();
  }

  private addRow(figure: FigureText): FigureRow {
    const label = el('button', { type: 'button', class: 'place' });
    const value = el('dd');
    const row = el('div', { class: 'figure' }, el('dt', {}, label), value);
    const made = { row, label, value, figure };
    this.highlight.attach(row, () => made.figure);
    this.rows.set(figure.id, made);
    return made;
  }
}
