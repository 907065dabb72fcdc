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
  /** Time of saving, ms. */
  readonly at: number;
}

/** Prefix of the keys of all visits. A visit is one page from its opening to its end. */
const PREFIX = 'fairlath.job';

const PROBE = 'fairlath.probe';

/** This many jobs of 64 kB leave most of a 5 MB storage free. */
export const MOST_VISITS = 8;

/**
 * Saves the job of this visit, and finds those of earlier visits. Each visit writes under its own key: two
 * tabs are two processes, each may see an old state of the storage, and neither can overwrite the other's
 * job.
 */
export class Keep {
  private readonly key: string;
  private kept: string | undefined;
  private isSafe: boolean | undefined;

  /**
   * The tab's own storage comes first; the last one is shared by all tabs and outlives them. A browser may
   * refuse access to either at any time.
   */
  constructor(
    private readonly first: string,
    private readonly stores: readonly (() => KeyValueStorage)[],
    private readonly now: () => number = Date.now,
  ) {
    this.key = `${PREFIX}.${now().toString(36)}.${Math.random().toString(36).slice(2)}`;
  }

  /** The newest job of an earlier visit in this tab, or else of any visit. */
  left(): SavedJob | undefined {
    return this.onEach((store) => this.others(store).find(({ text }) => text !== this.first)).find(
      (left) => left !== undefined,
    );
  }

  /** Whether the job outlives this tab. A visit that has changed nothing writes nothing. */
  keep(text: string): boolean {
    if (text === this.first) this.isSafe ??= this.canKeep();
    else if (text !== this.kept || !this.isSafe) this.write(text);
    return this.isSafe ?? false;
  }

  /** The offer is declined, or taken and saved by this visit. A tab that has gone on keeps its newer text. */
  forget({ key, text }: SavedJob): void {
    this.onEach((store) => {
      if (read(store, key)?.text === text) store.removeItem(key);
    });
  }

  /** Another tab removed a job because its offer was declined there. It may still be open here. */
  removed(key: string | null): void {
    if (this.kept !== undefined && (key === null || key === this.key)) this.write(this.kept);
  }

  private write(text: string): void {
    const isFirstTime = this.kept === undefined;
    this.kept = text;
    const written = this.onEach((store) => {
      store.setItem(this.key, `${this.now()}\n${text}`);
      // Once per visit: a tab whose job is removed here writes it again, and must not remove another tab's in
      // turn.
      if (isFirstTime) for (const { key } of this.others(store).slice(MOST_VISITS - 1)) store.removeItem(key);
      return true;
    });
    this.isSafe = written.at(-1) ?? false;
  }

  /** Tests with a text as long as a job, as a storage may be full. */
  private canKeep(): boolean {
    const tried = this.onEach((store) => {
      store.setItem(PROBE, this.first);
      store.removeItem(PROBE);
      return true;
    });
    return tried.at(-1) ?? false;
  }

  private others(store: KeyValueStorage): SavedJob[] {
    return Array.from({ length: store.length }, (_, i) => store.key(i))
      .filter((key) => key?.startsWith(PREFIX) && key !== this.key)
      .flatMap((key) => read(store, key!) ?? [])
      .sort((a, b) => b.at - a.at);
  }

  /** Does the same on each storage; undefined where the browser refuses. */
  private onEach<T>(work: (store: KeyValueStorage) => T): (T | undefined)[] {
    return this.stores.map((store) => {
      try {
        return work(store());
      } catch {
        // A private window, a full storage or storage switched off: `keep` tells the user.
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
