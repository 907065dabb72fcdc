/** What is used here of the browser's storage (HTML Living Standard, 12.2). */
export interface KeyValueStorage {
  readonly length: number;
  key(index: number): string | null;
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
  removeItem(key: string): void;
}

/** The job of one visit, as a store holds it. */
export interface SavedJob {
  readonly key: string;
  readonly text: string;
  /** When it was kept, ms. */
  readonly at: number;
}

/** The keys of all visits begin so. A visit is one page from its opening to its end. */
const PREFIX = 'fairlath.job';

const PROBE = 'fairlath.probe';

/** So many jobs of 64 kB leave most of a store of 5 MB free; nobody misses an older one. */
export const MOST_VISITS = 8;

/**
 * Keeps the job of this visit, and finds what earlier visits left. Each visit writes under a key of its own: two tabs
 * are two processes, each may see an old state of the store, and neither can write over the other's job.
 */
export class Keep {
  private readonly key: string;
  private kept: string | undefined;
  private isSafe: boolean | undefined;

  /**
   * The tab's own store comes first; the last one is shared by all tabs and outlives them. Each is asked for anew, as
   * a browser may refuse the store itself.
   */
  constructor(
    private readonly first: string,
    private readonly stores: readonly (() => KeyValueStorage)[],
    private readonly now: () => number = Date.now,
  ) {
    this.key = `${PREFIX}.${now().toString(36)}.${Math.random().toString(36).slice(2)}`;
  }

  /** The newest job that an earlier visit in this tab has left, or else any visit. */
  left(): SavedJob | undefined {
    return this.onEach((store) => this.others(store).find(({ text }) => text !== this.first)).find(
      (left) => left !== undefined,
    );
  }

  /** Whether the job outlives this tab. A visit that has changed nothing writes no job. */
  keep(text: string): boolean {
    if (text === this.first) this.isSafe ??= this.canKeep();
    else if (text !== this.kept || !this.isSafe) this.write(text);
    return this.isSafe ?? false;
  }

  /** An offer is turned down, or taken up and kept as this visit's own. A tab that has gone on keeps its newer text. */
  forget({ key, text }: SavedJob): void {
    this.onEach((store) => {
      if (read(store, key)?.text === text) store.removeItem(key);
    });
  }

  /** Another tab has removed a job: the offer of it was turned down there. Here it may still be in hand. */
  removed(key: string | null): void {
    if (this.kept !== undefined && (key === null || key === this.key)) this.write(this.kept);
  }

  private write(text: string): void {
    const isFirstTime = this.kept === undefined;
    this.kept = text;
    const written = this.onEach((store) => {
      store.setItem(this.key, `${this.now()}\n${text}`);
      // Once a visit: a tab whose job is removed here writes it again, and must not remove another tab's in turn.
      if (isFirstTime) for (const { key } of this.others(store).slice(MOST_VISITS - 1)) store.removeItem(key);
      return true;
    });
    this.isSafe = written.at(-1) ?? false;
  }

  /** Tried with a text as long as a job: a store may be full. */
  private canKeep(): boolean {
    const tried = this.onEach((store) => {
      store.setItem(PROBE, this.first);
      store.removeItem(PROBE);
      return true;
    });
    return tried.at(-1) ?? false;
  }

  /** The jobs of other visits, the newest first. */
  private others(store: KeyValueStorage): SavedJob[] {
    return Array.from({ length: store.length }, (_, i) => store.key(i))
      .filter((key) => key?.startsWith(PREFIX) && key !== this.key)
      .flatMap((key) => read(store, key!) ?? [])
      .sort((a, b) => b.at - a.at);
  }

  /** The same on each store; undefined where the browser refuses. */
  private onEach<T>(work: (store: KeyValueStorage) => T): (T | undefined)[] {
    return this.stores.map((store) => {
      try {
        return work(store());
      } catch {
        // A private window, a full store, storage switched off: `keep` tells the user.
        return undefined;
      }
    });
  }
}

function read(store: KeyValueStorage, key: string): SavedJob | undefined {
  const value = store.getItem(key);
  if (value === null) return undefined;
  const [, at, text] = /^(\d+)\n(.*)$/s.exec(value) ?? [];
  return { key, text: text ?? value, at: Number(at ?? 0) };
}
