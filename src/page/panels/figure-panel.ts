import type { Places } from '../canvas/highlight.ts';
import type { Sheets } from '../canvas/sheet-layer.ts';
import { byId, write } from '../dom.ts';
import type { Bench } from '../state/store.ts';
import { FigureList } from './figure-list.ts';
import { curvedRuns, quickFigures, slowFigures } from './figure-values.ts';

/** The figures beside the drawing: some in every frame, the others grey until the hand rests. */
export class FigurePanel {
  private readonly now;
  private readonly later;

  constructor(
    private readonly bench: Bench,
    private readonly sheets: Sheets,
    places: Places,
  ) {
    this.now = new FigureList(byId('figures-now'), places);
    this.later = new FigureList(byId('figures-later'), places);
    bench.changed(() => {
      this.draw();
      byId('figures-later').classList.add('old');
    });
    bench.rests(() => this.rested());
  }

  /** Another part lies on the bench: nothing of the last one stays. */
  forget(): void {
    this.later.show([]);
  }

  draw(): void {
    const { made, isTrue } = this.bench;
    if (!made) return;
    write(byId('name'), made.part.name);
    write(document.querySelector('title')!, `${made.part.name} – fairlath`);
    const sheets = { id: 'sheets', label: 'sheets', value: this.sheets.count };
    this.now.show([...quickFigures(made, this.bench), sheets]);
    byId('figures-now').classList.toggle('old', !isTrue);
    byId('figures-now').lastElementChild?.classList.toggle('old', !this.sheets.isTrue);
  }

  private rested(): void {
    const { made, isTrue, told, length } = this.bench;
    if (made && isTrue) this.later.show(slowFigures(made.part, this.bench));
    byId('figures-later').classList.toggle('old', !isTrue);
    write(byId('spoken'), told[0]?.message(length) ?? this.inShort());
  }

  /** What has come of it, for who cannot see the drawing. */
  private inShort(): string {
    const { made, bare, length } = this.bench;
    const said = (made ? curvedRuns(made) : []).flatMap(({ of, figures: { apex } }) =>
      apex ? `${of}apex at ${bare(apex.at.x)}, rise ${length(apex.rise)}` : [],
    );
    return [...said, this.sheets.count].join('; ');
  }
}
