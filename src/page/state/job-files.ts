import { SAMPLES } from 'virtual:samples';
import { fileNameFor } from '../../export/drawing/file-name.ts';
import { describeExcess } from '../../job/parse/read-yaml.ts';
import { STARTER_JOB } from '../../job/starter-job.ts';
import { errorText } from '../../units/fault.ts';
import { byId, el, updateText } from '../dom.ts';
import { Autosave, type SavedJob } from './autosave.ts';
import {
  download,
  downloadedMessage,
  type OpenedFile,
  openTextFile,
  readBlobText,
  saveTextFile,
} from './browser-files.ts';
import { evaluateJob, type JobDiagnostic } from './evaluate-job.ts';
import type { Store } from './store.ts';

export const FIRST_JOB = SAMPLES[0]?.text ?? STARTER_JOB;

const STARTING_JOBS = [...SAMPLES, { name: 'A new part with every key explained', text: STARTER_JOB }];

/** A lost disk or network may keep a save waiting forever. */
const SAVE_PENDING =
  'The previous save is still running. This one will follow. If it does not finish, copy the job text to a safe place.';

const REPLACEMENT_CHARACTER = '\uFFFD';

/** A file that is too long or not UTF-8 is read only in part: such a text must not be saved over the file. */
const isReadCompletely = (text: string): boolean =>
  describeExcess(text) === undefined && !text.includes(REPLACEMENT_CHARACTER);

/** With the name of the file, as its text is not on the page. */
const openDiagnostics = ({ name, text }: OpenedFile): JobDiagnostic[] =>
  evaluateJob(text).faults.map(({ position, message, ...fault }) => ({
    ...fault,
    position: undefined,
    message: (length) => {
      const line = position && describeExcess(text) === undefined ? `, line ${position.line}` : '';
      return `${name}${line}: ${message(length)}`;
    },
  }));

type KnownFile = Omit<OpenedFile, 'text'>;

export class JobFiles {
  /** The file of each job number, where the browser can write back to it. */
  private readonly files = new Map<number, KnownFile>();
  private saving = Promise.resolve();
  /** Saves that are requested and not done. */
  private pendingSaves = 0;
  /** The number of jobs requested, and the one that is open. */
  private requested = 0;
  private loaded = 0;
  /** A page that is left has saved its job: what is removed then is not for it to write again. */
  private isLeft = false;
  private readonly autosave = new Autosave(FIRST_JOB, [() => sessionStorage, () => localStorage]);

  constructor(
    private readonly store: Store,
    private readonly fileStatus: FileStatus,
  ) {
    const previous = this.autosave.findPrevious();
    if (previous) this.offerPreviousJob(previous);
    store.onIdle(() => this.autosaveJob());
    // The page may be closed before the pointer is idle.
    window.addEventListener('pagehide', () => {
      this.autosaveJob();
      this.isLeft = true;
    });
    window.addEventListener('pageshow', () => {
      this.isLeft = false;
    });
    window.addEventListener('storage', ({ key, newValue }) => {
      if (newValue === null && !this.isLeft) this.autosave.onRemoved(key);
    });
    this.offerStartingJobs();
    byId('open').addEventListener('click', () => this.open());
    byId('save').addEventListener('click', () => this.save());
    window.addEventListener('dragover', (event) => {
      if (event.dataTransfer?.types.includes('Files')) event.preventDefault();
    });
    window.addEventListener('drop', (event) => {
      const [dropped] = event.dataTransfer?.files ?? [];
      // Text that is dragged within a field is the browser's to move.
      if (!dropped) return;
      event.preventDefault();
      void this.load(async () => ({ name: dropped.name, text: await readBlobText(dropped) }));
    });
  }

  open(): Promise<void> {
    return this.load(() => openTextFile('.yaml,.yml'));
  }

  /** Opens a file once it is read, unless a later request came first. */
  private async load(read: () => Promise<OpenedFile | undefined>): Promise<void> {
    const request = ++this.requested;
    try {
      const opened = await read();
      if (!opened || request < this.loaded) return;
      if (isReadCompletely(opened.text)) this.startJob(opened.text, opened, undefined, request);
      else this.store.reject(openDiagnostics(opened));
    } catch (error) {
      this.fileStatus.show(`The page cannot read this file: ${errorText(error)}`);
    }
  }

  /** One save after another: of two at a time into one file the older text could come last. */
  save(): Promise<void> {
    const { jobNumber, text, evaluated } = this.store;
    if (this.pendingSaves++ > 0) this.fileStatus.show(SAVE_PENDING);
    this.saving = this.saving
      .then(() => this.writeJob(jobNumber, text, evaluated?.part.name ?? 'job'))
      .finally(() => this.pendingSaves--);
    return this.saving;
  }

  private async writeJob(job: number, text: string, partName: string): Promise<void> {
    const { name = fileNameFor(partName, '.yaml'), handle } = this.files.get(job) ?? {};
    try {
      const saved = await saveTextFile(text, name, handle);
      if (saved === undefined) return;
      if (saved !== 'downloaded') this.files.set(job, { handle: saved, name: saved.name });
      this.fileStatus.show(saved === 'downloaded' ? downloadedMessage(name) : `Saved ${saved.name}.`);
    } catch (error) {
      // The file may be gone or write access refused: the job is not lost by that.
      download(text, name, 'text/yaml');
      const copied = downloadedMessage('A copy');
      this.fileStatus.show(`${name} could not be saved (${errorText(error)}). ${copied}`);
    }
  }

  private startJob(text: string, file?: KnownFile, coalesceKey?: string, request = ++this.requested): void {
    this.loaded = request;
    this.store.startJob(text, coalesceKey);
    if (file) this.files.set(this.store.jobNumber, file);
  }

  private offerStartingJobs(): void {
    const choice = byId<HTMLSelectElement>('samples');
    choice.append(...STARTING_JOBS.map(({ name }, i) => el('option', { value: String(i) }, name)));
    choice.addEventListener('change', () => {
      const chosen = choice.value === '' ? undefined : STARTING_JOBS[Number(choice.value)];
      if (chosen) this.startJob(chosen.text, undefined, 'samples');
    });
    // Reset the list when the job differs from the sample, so that it can be chosen again.
    this.store.onChange(() => {
      if (STARTING_JOBS[Number(choice.value)]?.text !== this.store.text) choice.value = '';
    });
    // The arrow keys go from one sample to the next, which counts as one step.
    choice.addEventListener('blur', () => {
      choice.value = '';
      this.store.endCoalescing();
    });
  }

  private autosaveJob(): boolean {
    const isSaved = this.autosave.save(this.store.text);
    byId('unkept').hidden = isSaved;
    return isSaved;
  }

  private offerPreviousJob(previous: SavedJob): void {
    const offer = byId('kept');
    offer.hidden = false;
    byId('kept-leave').addEventListener('click', () => {
      offer.hidden = true;
      this.autosave.discard(previous);
    });
    byId('kept-take').addEventListener('click', () => {
      offer.hidden = true;
      this.startJob(previous.text);
      // If it cannot be saved here it stays with the visit that left it.
      if (this.autosaveJob()) this.autosave.discard(previous);
    });
  }
}

export class FileStatus {
  private readonly node = byId('file-said');
  /** A message that arrives during a drag stays when it ends: only the next change removes it. */
  private hasBegun = false;

  constructor(store: Store) {
    const begin = (): void => {
      this.hasBegun = true;
    };
    for (const name of ['pointerdown', 'keydown']) window.addEventListener(name, begin, { capture: true });
    byId('drawing').addEventListener('pointerdown', () => this.show(''));
    store.onChange(() => {
      if (this.hasBegun) updateText(this.node, '');
    });
  }

  show(words: string): void {
    this.hasBegun = false;
    updateText(this.node, words);
  }
}
