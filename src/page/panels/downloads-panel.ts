import { errorText } from '../../units/fault.ts';
import type { SheetLayer } from '../canvas/sheet-layer.ts';
import { byId, el } from '../dom.ts';
import { pageFont } from '../embedded-font.ts';
import { download, downloadedMessage } from '../state/browser-files.ts';
import type { FileStatus } from '../state/job-files.ts';
import type { Store } from '../state/store.ts';
import { DOWNLOADS, type Download, fileName, offsetsTables } from './downloads.ts';

/** Yield so that the status text paints before the slow work starts. */
const nextPaint = (): Promise<void> =>
  new Promise((resolve) => {
    requestAnimationFrame(() => setTimeout(resolve));
  });

export class DownloadsPanel {
  /** What is being made: a second click does not start it again. */
  private readonly inProgress = new Set<Download>();

  constructor(
    private readonly store: Store,
    private readonly sheetLayer: SheetLayer,
    private readonly fileStatus: FileStatus,
  ) {
    for (const paper of DOWNLOADS) {
      const button = el('button', { type: 'button' }, paper.label);
      button.addEventListener('click', () => this.downloadFile(paper));
      byId('papers').append(button);
    }
    byId('offsets-panel').addEventListener('toggle', () => this.showOffsets());
    store.onIdle(() => this.showOffsets());
  }

  private async downloadFile(paper: Download): Promise<void> {
    const { evaluated, isUpToDate } = this.store;
    if (!evaluated || !isUpToDate) return this.fileStatus.show('Fix the mistakes in the job first.');
    if (this.inProgress.has(paper)) return;
    this.inProgress.add(paper);
    const { part } = evaluated;
    const name = fileName(part, paper);
    this.fileStatus.show(`Making ${name} …`);
    await nextPaint();
    try {
      download(await paper.make(part, () => this.sheetLayer.layouts(part), pageFont), name, paper.type);
      this.fileStatus.show(downloadedMessage(name));
    } catch (error) {
      this.fileStatus.show(`The page cannot make this file: ${errorText(error)}`);
    } finally {
      this.inProgress.delete(paper);
    }
  }

  private showOffsets(): void {
    const { evaluated, ruleText } = this.store;
    if (!evaluated || !byId<HTMLDetailsElement>('offsets-panel').open) return;
    const tables = offsetsTables(evaluated.part).map(({ name, rows }) => {
      const heads = ['station', 'offset'].map((head) => el('th', { scope: 'col' }, head));
      const lines = rows.map(({ station, offset, side }) => {
        const where = side ? `${ruleText(station)}, ${side} of the shoulder` : ruleText(station);
        return el('tr', {}, el('td', {}, where), el('td', {}, ruleText(offset)));
      });
      return el('table', {}, el('caption', {}, name), el('tr', {}, ...heads), ...lines);
    });
    byId('offsets').replaceChildren(...tables);
  }
}
