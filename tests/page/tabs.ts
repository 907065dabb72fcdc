import { Autosave, type KeyValueStorage, type SavedJob } from '../../src/page/state/autosave.ts';

export const FIRST = 'part: First\n';

/** A store of a browser, which can be full, refuse to write, or be switched off. */
export class Shelf implements KeyValueStorage {
  readonly items = new Map<string, string>();
  /** The keys of all jobs that were written or removed. */
  readonly touched: string[] = [];
  room = Number.POSITIVE_INFINITY;
  isOff = false;

  get length(): number {
    return this.items.size;
  }

  key(index: number): string | null {
    return [...this.items.keys()][index] ?? null;
  }

  getItem(key: string): string | null {
    return this.items.get(key) ?? null;
  }

  setItem(key: string, value: string): void {
    const others = [...this.items].filter(([name]) => name !== key);
    const taken = others.reduce((sum, [name, text]) => sum + name.length + text.length, 0);
    if (taken + key.length + value.length > this.room) throw new Error('QuotaExceededError');
    this.items.set(key, value);
    this.touch(key);
  }

  removeItem(key: string): void {
    this.items.delete(key);
    this.touch(key);
  }

  private touch(key: string): void {
    if (key.startsWith('fairlath.job')) this.touched.push(key);
  }
}

type Change = readonly [key: string, value: string | null];

/** What one process sees of the shared store: its own changes at once, those of others when it hears of them. */
class View extends Shelf {
  private readonly unheard: Change[] = [];

  constructor(
    private readonly shared: Shelf,
    private readonly tell: (change: Change) => void,
  ) {
    super();
    for (const [key, value] of shared.items) this.items.set(key, value);
  }

  override setItem(key: string, value: string): void {
    super.setItem(key, value);
    this.shared.setItem(key, value);
    this.tell([key, value]);
  }

  override removeItem(key: string): void {
    super.removeItem(key);
    this.shared.removeItem(key);
    this.tell([key, null]);
  }

  hear(change: Change): void {
    this.unheard.push(change);
  }

  /** The keys that others have removed. */
  catchUp(): string[] {
    const heard = this.unheard.splice(0);
    for (const [key, value] of heard)
      if (value === null) this.items.delete(key);
      else this.items.set(key, value);
    return heard.flatMap(([key, value]) => (value === null ? [key] : []));
  }
}

/** A page in a tab, as far as it keeps a job. */
export class Tab {
  readonly autosave: Autosave;
  readonly offered: SavedJob | undefined;
  text = FIRST;
  /** What this visit has kept last; undefined before its first change. */
  kept: string | undefined;

  constructor(
    private readonly browser: Tabs,
    readonly session: Shelf,
    readonly view: View,
  ) {
    const store = (shelf: Shelf) => (): KeyValueStorage => {
      if (shelf.isOff) throw new Error('SecurityError');
      return shelf;
    };
    this.autosave = new Autosave(FIRST, [store(session), store(view)], () => browser.now++);
    this.offered = this.autosave.findPrevious();
    this.rest();
  }

  rest(): boolean {
    if (this.text !== FIRST) this.kept = this.text;
    return this.autosave.save(this.text);
  }

  /** Types a text, and lets the hand rest. */
  type(text: string): boolean {
    this.text = text;
    return this.rest();
  }

  take(): void {
    if (!this.offered) return;
    if (this.type(this.offered.text)) this.autosave.discard(this.offered);
  }

  leave(): void {
    if (this.offered) this.autosave.discard(this.offered);
  }

  reload(): Tab {
    this.close();
    return this.browser.open(this.session);
  }

  /** By hand, or because the browser crashed: a page that crashes is told nothing. */
  close(): void {
    this.browser.tabs.delete(this);
  }

  catchUp(): void {
    for (const key of this.view.catchUp()) this.autosave.onRemoved(key);
  }
}

/** A browser and its tabs, each a process of its own. */
export class Tabs {
  readonly shared = new Shelf();
  readonly tabs = new Set<Tab>();
  now = 1;

  open(session = new Shelf()): Tab {
    const view: View = new View(this.shared, (change) => {
      for (const tab of this.tabs) if (tab.view !== view) tab.view.hear(change);
    });
    view.isOff = this.shared.isOff;
    view.room = this.shared.room;
    const tab = new Tab(this, session, view);
    this.tabs.add(tab);
    return tab;
  }

  /** Everybody hears of everything. */
  catchUp(): void {
    for (const _ of ['what was removed', 'what was written in answer'])
      for (const tab of this.tabs) tab.catchUp();
  }
}
