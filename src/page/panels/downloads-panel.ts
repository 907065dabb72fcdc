import type { Sheets } from '../canvas/sheet-layer.ts';
import { byId, el } from '../dom.ts';
import { FONT } from '../embedded-font.ts';
import { amongDownloads, download, whyOf } from '../state/browser-files.ts';
import type { FileSaid } from '../state/file-status.ts';
import type { Bench } from '../state/store.ts';
import { fileName, PAPERS_TO_TAKE, type Paper, tablesOf } from './downloads.ts';

/** What was written stands on the screen: what takes longer than a frame would keep it off. */
const shown = (): Promise<void> =>
  new Promise((resolve) => {
    requestAnimationFrame(() => setTimeout(resolve));
  });

/** The papers to take to the bench, and the table of offsets to read off. */
export class Takeaway {
  /** What is being made: a second click asks for no second copy of it. */
  private readonly making = new Set<Paper>();

  constructor(
    private readonly bench: Bench,
    private readonly sheets: Sheets,
    private readonly said: FileSaid,
  ) {
    byId('papers').append(
      ...PAPERS_TO_TAKE.map((paper) => {
        const button = el('button', { type: 'button' }, paper.label);
        button.addEventListener('click', () => this.take(paper));
        return button;
      }),
    );
    byId('offsets-panel').addEventListener('toggle', () => this.table());
    bench.rests(() => this.table());
  }

  private async take(paper: Paper): Promise<void> {
    const { made, isTrue } = this.bench;
    if (!made || !isTrue) {
      this.said.say('First put right what is wrong with the job.');
      return;
    }
    if (this.making.has(paper)) return;
    this.making.add(paper);
    const { part } = made;
    const name = fileName(part, paper);
    this.said.say(`${name} is being made …`);
    await shown();
    try {
      download(await paper.make(part, () => this.sheets.layouts(part), FONT), name, paper.type);
      this.said.say(amongDownloads(name));
    } catch (error) {
      this.said.say(`This could not be made: ${whyOf(error)}`);
    } finally {
      this.making.delete(paper);
    }
  }

  private table(): void {
    const { made, bare } = this.bench;
    if (!made || !byId<HTMLDetailsElement>('offsets-panel').open) return;
    const tables = tablesOf(made.part).map(({ name, rows }) =>
      el(
        'table',
        {},
        el('caption', {}, name),
        el('tr', {}, el('th', { scope: 'col' }, 'station'), el('th', { scope: 'col' }, 'offset')),
        ...rows.map(({ station, offset, side }) => {
          const where = side ? `${bare(station)}, ${side} of shoulder` : bare(station);
          return el('tr', {}, el('td', {}, where), el('td', {}, bare(offset)));
        }),
      ),
    );
    byId('offsets').replaceChildren(...tables);
  }
}
