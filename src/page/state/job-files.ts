import { SAMPLES } from 'virtual:samples';
import { nameAfter } from '../../export/drawing/file-name.ts';
import { tooLong } from '../../job/parse/read-yaml.ts';
import { STARTER_JOB } from '../../job/starter-job.ts';
import { byId, el } from '../dom.ts';
import { Keep, type Kept } from './autosave.ts';
import {
  amongDownloads,
  download,
  type FileHandle,
  type Opened,
  openText,
  saveText,
  textOf,
  whyOf,
} from './browser-files.ts';
import { type Told, workOut } from './evaluate-job.ts';
import type { FileSaid } from './file-status.ts';
import type { Bench } from './store.ts';

/** The part that a fresh page shows. */
export const FIRST = SAMPLES[0]?.text ?? STARTER_JOB;

/** The parts of ours to begin from. */
const OURS = [...SAMPLES, { name: 'A new part, with every key explained', text: STARTER_JOB }];

/** A disk or a network that has gone may keep a save waiting for good. */
const WAITS =
  'The save before this one is not done yet: this one follows it. If neither ends, copy the text of the job file elsewhere.';

/** What stands for bytes that are no UTF-8. */
const NOT_READ = '\uFFFD';

/**
 * Of a file that is too long only the beginning is read, and of one in another coding not every letter: such a text
 * must not be saved over the file.
 */
const isWhole = (text: string): boolean => tooLong(text) === undefined && !text.includes(NOT_READ);

/** Why a file is not taken up: its name and the line, as its text is nowhere on the page. */
const faultsOf = ({ name, text }: Opened): Told[] =>
  workOut(text).faults.map(({ place, message, ...fault }) => ({
    ...fault,
    place: undefined,
    message: (length) => {
      const line = place && tooLong(text) === undefined ? `, line ${place.line}` : '';
      return `${name}${line}: ${message(length)}`;
    },
  }));

interface KnownFile {
  readonly handle?: FileHandle;
  readonly name: string;
}

/** Where jobs come from and go to: files, our own parts, what the last visit left. */
export class Shelf {
  /** By the job's number the file it came from, where the browser lets us write back to it. */
  private readonly files = new Map<number, KnownFile>();
  private saving = Promise.resolve();
  /** Saves that were asked for and are not done. */
  private unsaved = 0;
  /** How many jobs have been asked for, and which of them lies on the bench. */
  private asked = 0;
  private taken = 0;
  private readonly keep = new Keep(FIRST, [() => sessionStorage, () => localStorage]);

  constructor(
    private readonly bench: Bench,
    private readonly said: FileSaid,
  ) {
    const left = this.keep.left();
    if (left) this.offer(left);
    bench.rests(() => this.keepJob());
    // The page may be closed before the hand has rested.
    window.addEventListener('pagehide', () => this.keepJob());
    window.addEventListener('storage', ({ key, newValue }) => {
      if (newValue === null) this.keep.removed(key);
    });
    this.offerOurs();
    byId('open').addEventListener('click', () => this.open());
    byId('save').addEventListener('click', () => this.save());
    // A job file may simply be let fall on the page.
    window.addEventListener('dragover', (event) => {
      if (event.dataTransfer?.types.includes('Files')) event.preventDefault();
    });
    window.addEventListener('drop', (event) => {
      const [dropped] = event.dataTransfer?.files ?? [];
      // Words that are moved within a field are the browser's to move.
      if (!dropped) return;
      event.preventDefault();
      void this.take(async () => ({ name: dropped.name, text: await textOf(dropped) }));
    });
  }

  open(): Promise<void> {
    return this.take(() => openText('.yaml,.yml'));
  }

  /** A file is taken up once it is read, unless one that was asked for later has come sooner. */
  private async take(read: () => Promise<Opened | undefined>): Promise<void> {
    const asked = ++this.asked;
    try {
      const opened = await read();
      if (!opened || asked < this.taken) return;
      if (isWhole(opened.text)) this.start(opened.text, opened, undefined, asked);
      else this.bench.refuse(faultsOf(opened));
    } catch (error) {
      this.said.say(`This file could not be read: ${whyOf(error)}`);
    }
  }

  /** One save after the other: of two at a time into one file the older text could come last. */
  save(): Promise<void> {
    const { job, text, made } = this.bench;
    if (this.unsaved++ > 0) this.said.say(WAITS);
    this.saving = this.saving
      .then(() => this.saveNext(job, text, made?.part.name ?? 'job'))
      .finally(() => this.unsaved--);
    return this.saving;
  }

  private async saveNext(job: number, text: string, partName: string): Promise<void> {
    const file = this.files.get(job);
    const name = file?.name ?? nameAfter(partName, '.yaml');
    try {
      const saved = await saveText(text, name, file?.handle);
      if (saved === undefined) return;
      if (saved !== 'downloaded') this.files.set(job, { handle: saved, name: saved.name });
      this.said.say(saved === 'downloaded' ? amongDownloads(name) : `${saved.name} is saved.`);
    } catch (error) {
      // The file may have gone, or the browser may have been told not to write: the job is not lost by that.
      download(text, name, 'text/yaml');
      this.said.say(`${name} could not be written (${whyOf(error)}): ${amongDownloads('a copy')}`);
    }
  }

  private start(text: string, file?: KnownFile, burst?: string, asked = ++this.asked): void {
    this.taken = asked;
    this.bench.start(text, burst);
    if (file) this.files.set(this.bench.job, file);
  }

  private offerOurs(): void {
    const choice = byId<HTMLSelectElement>('samples');
    choice.append(...OURS.map(({ name }, i) => el('option', { value: String(i) }, name)));
    choice.addEventListener('change', () => {
      const chosen = choice.value === '' ? undefined : OURS[Number(choice.value)];
      if (chosen) this.start(chosen.text, undefined, 'samples');
    });
    // One that is undone or changed can be chosen anew.
    this.bench.changed(() => {
      if (OURS[Number(choice.value)]?.text !== this.bench.text) choice.value = '';
    });
    // The arrow keys go from one to the next, which counts as one step.
    choice.addEventListener('blur', () => {
      choice.value = '';
      this.bench.endBurst();
    });
  }

  private keepJob(): boolean {
    const isKept = this.keep.keep(this.bench.text);
    byId('unkept').hidden = isKept;
    return isKept;
  }

  private offer(left: Kept): void {
    const offer = byId('kept');
    offer.hidden = false;
    byId('kept-leave').addEventListener('click', () => {
      offer.hidden = true;
      this.keep.forget(left);
    });
    byId('kept-take').addEventListener('click', () => {
      offer.hidden = true;
      this.start(left.text);
      // Where it cannot be kept again it stays with the visit that left it.
      if (this.keepJob()) this.keep.forget(left);
    });
  }
}
