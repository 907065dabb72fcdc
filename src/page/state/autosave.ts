/** The part of the browser's storage (HTML Living Standard, 12.2) that is used here. */
export interface KeyValueStorage {
  readonly length: number;
  key(index: number): string | null;
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
  removeItem(key: string): void;
}

/** The saved job of one visit. */
export interface SavedJob {
  readonly key: string;
  readonly text: string;
  readonly savedAt: number;
}

/** Prefix of the keys of all visits. A visit is one page from its opening to its end. */
const PREFIX = 'fairlath.job';

const PROBE = 'fairlath.probe';

/** This many jobs of 64 kB leave most of a 5 MB storage free. */
export const MAX_VISITS = 8;

/**
 * Saves the job of this visit, and finds those of earlier visits. Each visit has its own key: two tabs are two
 * processes that may see an old state of the storage, and neither can overwrite the other's job.
 */
export class Autosave {
  private readonly key: string;
  private savedText: string | undefined;
  private isSaved: boolean | undefined;

  /** The tab's own storage comes first; the last one is shared by all tabs and outlives them. */
  constructor(
    private readonly initialText: string,
    private readonly storages: readonly (() => KeyValueStorage)[],
    private readonly now: () => number = Date.now,
  ) {
    this.key = `${PREFIX}.${now().toString(36)}.${Math.random().toString(36).slice(2)}`;
  }

  /** The newest job of an earlier visit in this tab, or else of any visit. */
  findPrevious(): SavedJob | undefined {
    return this.onEach((storage) =>
      this.otherJobs(storage).find(({ text }) => text !== this.initialText),
    ).find((previous) => previous !== undefined);
  }

  /** Whether the job outlives this tab. A visit that has changed nothing writes nothing. */
  save(text: string): boolean {
    if (text === this.initialText) this.isSaved ??= this.canSave();
    else if (text !== this.savedText || !this.isSaved) this.write(text);
    return this.isSaved ?? false;
  }

  /** The offer is declined, or taken and saved by this visit. A tab that has gone on keeps its newer text. */
  discard({ key, text }: SavedJob): void {
    this.onEach((storage) => {
      if (readSavedJob(storage, key)?.text === text) storage.removeItem(key);
    });
  }

  /** Another tab removed a job because its offer was declined there. It may still be open here. */
  onRemoved(key: string | null): void {
    if (this.savedText !== undefined && (key === null || key === this.key)) this.write(this.savedText);
  }

  private write(text: string): void {
    const isFirstTime = this.savedText === undefined;
    this.savedText = text;
    this.isSaved = this.writeEach((storage) => {
      storage.setItem(this.key, `${this.now()}\n${text}`);
      // Only once: a tab whose job is removed here writes it again, and must not remove another's in turn.
      const excess = isFirstTime ? this.otherJobs(storage).slice(MAX_VISITS - 1) : [];
      for (const { key } of excess) storage.removeItem(key);
    });
  }

  /** Tests with a text as long as a job, as a storage may be full. */
  private canSave(): boolean {
    return this.writeEach((storage) => {
      storage.setItem(PROBE, this.initialText);
      storage.removeItem(PROBE);
    });
  }

  private otherJobs(storage: KeyValueStorage): SavedJob[] {
    return Array.from({ length: storage.length }, (_, i) => storage.key(i) ?? '')
      .filter((key) => key.startsWith(PREFIX) && key !== this.key)
      .flatMap((key) => readSavedJob(storage, key) ?? [])
      .sort((a, b) => b.savedAt - a.savedAt);
  }

  /** Whether it succeeds on the shared storage, the last one. */
  private writeEach(work: (storage: KeyValueStorage) => void): boolean {
    const done = this.onEach((storage) => {
      work(storage);
      return true;
    });
    return done.at(-1) ?? false;
  }

  /** A private window, a full storage or storage switched off gives undefined: `save` tells the user. */
  private onEach<T>(work: (storage: KeyValueStorage) => T): (T | undefined)[] {
    return this.storages.map((storage) => {
      try {
        return work(storage());
      } catch {
        return undefined;
      }
    });
  }
}

function readSavedJob(storage: KeyValueStorage, key: string): SavedJob | undefined {
  const value = storage.getItem(key);
  if (value === null) return undefined;
  const [, savedAt = 0, text = value] = /^(\d+)\n(.*)$/s.exec(value) ?? [];
  return { key, text, savedAt: Number(savedAt) };
}
