import type { Places } from '../canvas/highlight.ts';
import { el, write } from '../dom.ts';
import type { Figure } from './figure-values.ts';

interface Row {
  readonly row: HTMLElement;
  readonly label: HTMLElement;
  readonly value: HTMLElement;
  figure: Figure;
}

/** Figures as a list of names and values; the same rows stay from frame to frame, only their words change. */
export class FigureList {
  private readonly rows = new Map<string, Row>();

  constructor(
    private readonly host: HTMLElement,
    private readonly places: Places,
  ) {}

  show(figures: readonly Figure[]): void {
    const ids = new Set(figures.map(({ id }) => id));
    for (const [id, { row }] of this.rows) {
      if (ids.has(id)) continue;
      row.remove();
      this.rows.delete(id);
    }
    figures.forEach((figure, i) => {
      const row = this.rows.get(figure.id) ?? this.added(figure);
      row.figure = figure;
      write(row.label, figure.label);
      write(row.value, figure.value);
      row.row.classList.toggle('warning', figure.isWarning ?? false);
      if (this.host.children[i] !== row.row) this.host.insertBefore(row.row, this.host.children[i] ?? null);
    });
    this.places.follow();
  }

  private added(figure: Figure): Row {
    const label = el('button', { type: 'button', class: 'place' });
    const value = el('dd');
    const row = el('div', { class: 'figure' }, el('dt', {}, label), value);
    const made: Row = { row, label, value, figure };
    this.places.attach(row, () => made.figure);
    this.rows.set(figure.id, made);
    return made;
  }
}
