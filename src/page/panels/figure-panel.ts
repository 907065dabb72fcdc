import type { Highlight } from '../canvas/highlight.ts';
import type { SheetLayer } from '../canvas/sheet-layer.ts';
import { byId, el, updateText } from '../dom.ts';
import type { Store } from '../state/store.ts';
import { curvedRuns, type FigureText, quickFigures, slowFigures } from './figure-values.ts';

export class FigurePanel {
  private readonly quickList;
  private readonly slowList;

  constructor(
    private readonly store: Store,
    private readonly sheetLayer: SheetLayer,
    highlight: Highlight,
  ) {
    this.quickList = new FigureList(byId('figures-now'), highlight);
    this.slowList = new FigureList(byId('figures-later'), highlight);
    store.onChange(() => {
      this.draw();
      byId('figures-later').classList.add('old');
    });
    store.onIdle(() => this.drawSlow());
  }

  clear(): void {
    this.slowList.show([]);
  }

  draw(): void {
    const { evaluated, isUpToDate } = this.store;
    if (!evaluated) return;
    updateText(byId('name'), evaluated.part.name);
    document.title = `${evaluated.part.name} – fairlath`;
    const sheets = { id: 'sheets', label: 'sheets', value: this.sheetLayer.countText };
    this.quickList.show([...quickFigures(evaluated, this.store), sheets]);
    byId('figures-now').classList.toggle('old', !isUpToDate);
    byId('figures-now').lastElementChild?.classList.toggle('old', !this.sheetLayer.isUpToDate);
  }

  private drawSlow(): void {
    const { evaluated, isUpToDate, diagnostics, lengthText } = this.store;
    if (evaluated && isUpToDate) this.slowList.show(slowFigures(evaluated.part, this.store));
    byId('figures-later').classList.toggle('old', !isUpToDate);
    updateText(byId('spoken'), diagnostics[0]?.message(lengthText) ?? this.spokenSummary());
  }

  private spokenSummary(): string {
    const { evaluated, ruleText, lengthText } = this.store;
    const apexes = (evaluated ? curvedRuns(evaluated) : []).flatMap(({ prefix, figures: { apex } }) =>
      apex ? `${prefix}apex at ${ruleText(apex.at.x)}, rise ${lengthText(apex.rise)}` : [],
    );
    return [...apexes, this.sheetLayer.countText].join('; ');
  }
}

interface FigureRow {
  readonly row: HTMLElement;
  readonly label: HTMLElement;
  readonly value: HTMLElement;
  figure: FigureText;
}

/** Rows are reused from frame to frame, so that none loses the keyboard focus. */
class FigureList {
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
    const row = el('div', { class: 'figure row' }, el('dt', {}, label), value);
    const made = { row, label, value, figure };
    this.highlight.attach(row, () => made.figure);
    this.rows.set(figure.id, made);
    return made;
  }
}
