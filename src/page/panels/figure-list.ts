import type { Highlight } from '../canvas/highlight.ts';
import { el, updateText } from '../dom.ts';
import type { FigureText } from './figure-values.ts';

interface FigureRow {
  readonly row: HTMLElement;
  readonly label: HTMLElement;
  readonly value: HTMLElement;
  figure: FigureText;
}

/**
 * Figures as a list of names and values. Rows are reused from frame to frame, so that none loses the keyboard
 * focus.
 */
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
    figures.forEach((figure, i) => {
      const row = this.rows.get(figure.id) ?? this.addRow(figure);
      row.figure = figure;
      updateText(row.label, figure.label);
      updateText(row.value, figure.value);
      row.row.classList.toggle('warning', figure.isWarning ?? false);
      if (this.host.children[i] !== row.row) this.host.insertBefore(row.row, this.host.children[i] ?? null);
    });
    this.highlight.refresh();
  }

  private addRow(figure: FigureText): FigureRow {
    const label = el('button', { type: 'button', class: 'place' });
    const value = el('dd');
    const row = el('div', { class: 'figure' }, el('dt', {}, label), value);
    const made: FigureRow = { row, label, value, figure };
    this.highlight.attach(row, () => made.figure);
    this.rows.set(figure.id, made);
    return made;
  }
}
