import { SAMPLES } from 'virtual:samples';
import { nameAfter } from '../export/file-name.ts';
import { STARTER_JOB } from '../job/starter.ts';
import type { Bench } from './bench.ts';
import { byId, el, write } from './dom.ts';
import { amongDownloads, download, type FileHandle, openText, saveText, textOf, whyOf } from './files.ts';
import { forgetBefore, keep, takeOver } from './keep.ts';

/** The part that a fresh page shows. */
export const FIRST = SAMPLES[0]?.text ?? STARTER_JOB;

/** The parts of ours to begin from. */
const OURS = [...SAMPLES, { name: 'A new part, with every key explained', text: STARTER_JOB }];

interface KnownFile {
  readonly handle?: FileHandle;
  readonly name: string;
}

/** Where jobs come from and go to: files, our own parts, what the last visit left. */
export class Shelf {
  /** By the job's number the file it came from, where the browser lets us write back to it. */
  private readonly files = new Map<number, KnownFile>();
  private readonly said = byId('file-said');

  constructor(private readonly bench: Bench) {
    const before = takeOver();
    if (before !== undefined && before !== bench.text) this.offer(before);
    bench.changed(() => write(this.said, ''));
    byId('drawing').addEventListener('pointerdown', () => write(this.said, ''));
    bench.rests(() => {
      byId('unkept').hidden = keep(bench.text);
    });
    this.offerOurs();
    byId('open').addEventListener('click', () => this.open());
    byId('save').addEventListener('click', () => this.save());
    // A job file may simply be let fall on the page.
    window.addEventListener('dragover', (event) => event.preventDefault());
    window.addEventListener('drop', async (event) => {
      event.preventDefault();
      const [dropped] = event.dataTransfer?.files ?? [];
      if (dropped) this.start(await textOf(dropped), { name: dropped.name });
    });
  }

  async open(): Promise<void> {
    try {
      const opened = await openText('.yaml,.yml');
      if (opened) this.start(opened.text, opened);
    } catch (error) {
      write(this.said, `This file could not be read: ${whyOf(error)}`);
    }
  }

  async save(): Promise<void> {
    const { job, text, made } = this.bench;
    const file = this.files.get(job);
    const name = file?.name ?? nameAfter(made?.part.name ?? 'job', '.yaml');
    try {
      const saved = await saveText(text, name, file?.handle);
      if (saved === undefined) return;
      if (saved !== 'downloaded') this.files.set(job, { handle: saved, name: saved.name });
      write(this.said, saved === 'downloaded' ? amongDownloads(name) : `${saved.name} is saved.`);
    } catch (error) {
      // The file may have gone, or the browser may have been told not to write: the job is not lost by that.
      download(text, name, 'text/yaml');
      write(this.said, `${name} could not be written (${whyOf(error)}): ${amongDownloads('a copy')}`);
    }
  }

  private start(text: string, file?: KnownFile, burst?: string): void {
    this.bench.start(text, burst);
    if (file) this.files.set(this.bench.job, file);
    else this.files.delete(this.bench.job);
  }

  private offerOurs(): void {
    const choice = byId<HTMLSelectElement>('samples');
    choice.append(...OURS.map(({ name }, i) => el('option', { value: String(i) }, name)));
    choice.addEventListener('change', () => {
      const chosen = choice.value === '' ? undefined : OURS[Number(choice.value)];
      if (chosen) this.start(chosen.text, undefined, 'samples');
    });
    // The arrow keys go from one to the next, which counts as one step.
    choice.addEventListener('blur', () => {
      choice.value = '';
      this.bench.endBurst();
    });
  }

  private offer(before: string): void {
    const offer = byId('kept');
    offer.hidden = false;
    const close = (): void => {
      offer.hidden = true;
      forgetBefore();
    };
    byId('kept-leave').addEventListener('click', close);
    byId('kept-take').addEventListener('click', () => {
      close();
      this.start(before);
    });
  }
}
