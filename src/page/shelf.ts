import { SAMPLES } from 'virtual:samples';
import { nameAfter } from '../export/file-name.ts';
import { STARTER_JOB } from '../job/starter.ts';
import type { Bench } from './bench.ts';
import { byId, el, write } from './dom.ts';
import { type FileHandle, openText, saveText, textOf } from './files.ts';
import { forgetBefore, keep, takeOver } from './keep.ts';

/** The part that a fresh page shows. */
export const FIRST = SAMPLES[0]?.text ?? STARTER_JOB;

/** The parts of ours to begin from. */
const OURS = [...SAMPLES, { name: 'A new part, with every key explained', text: STARTER_JOB }];

/** Where jobs come from and go to: files, our own parts, what the last visit left. */
export class Shelf {
  /** The file that the job came from, where the browser lets us write back to it. */
  private file: { handle?: FileHandle; name?: string } = {};

  constructor(
    private readonly bench: Bench,
    private readonly started: () => void,
  ) {
    const before = takeOver();
    if (before !== undefined && before !== bench.text) this.offer(before);
    bench.rests(() => keep(bench.text));
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
    const opened = await openText('.yaml,.yml');
    if (opened) this.start(opened.text, opened);
  }

  async save(): Promise<void> {
    const name = this.file.name ?? nameAfter(this.bench.made?.part.name ?? 'job', '.yaml');
    const saved = await saveText(this.bench.text, name, this.file.handle);
    if (saved === undefined) return;
    if (saved !== 'downloaded') this.file = { handle: saved, name: saved.name };
    write(byId('spoken'), `${name} is saved`);
  }

  private start(text: string, file: Shelf['file'] = {}): void {
    this.file = file;
    this.bench.start(text);
    this.started();
  }

  private offerOurs(): void {
    const choice = byId<HTMLSelectElement>('samples');
    choice.append(...OURS.map(({ name }, i) => el('option', { value: String(i) }, name)));
    choice.addEventListener('change', () => {
      const chosen = choice.value === '' ? undefined : OURS[Number(choice.value)];
      if (chosen) this.start(chosen.text);
      choice.value = '';
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
