import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MAX_VISITS } from '../../../src/page/state/autosave.ts';
import { FIRST, Shelf, Tabs } from '../tabs.ts';

const texts = (shelf: Shelf): string[] =>
  [...shelf.items.values()].map((value) => value.replace(/^\d+\n/, ''));

describe('the job of the last visit', () => {
  test('is offered after a reload, after a crash, and in a new tab', () => {
    const browser = new Tabs();
    const tab = browser.open();
    tab.type('mine');
    expect(tab.reload().offered?.text).toBe('mine');
    for (const each of [...browser.tabs]) each.close();
    expect(browser.open().offered?.text).toBe('mine');
  });

  test('is offered at each opening until it is taken up or turned down', () => {
    const browser = new Tabs();
    browser.open().type('mine');
    expect(browser.open().reload().reload().offered?.text).toBe('mine');
    const last = browser.open();
    last.leave();
    expect(texts(browser.shared)).toEqual([]);
    expect(last.reload().offered).toBeUndefined();
  });

  test('taken up is kept again before the old one goes', () => {
    const browser = new Tabs();
    browser.open().type('mine');
    const tab = browser.open();
    tab.take();
    expect(texts(browser.shared)).toEqual(['mine']);
    expect(tab.reload().offered?.text).toBe('mine');
  });

  test('stays while the offer is passed over, and is offered again after what came later', () => {
    const browser = new Tabs();
    browser.open().type('older');
    browser.open().type('newer');
    const tab = browser.open();
    expect(tab.offered?.text).toBe('newer');
    tab.leave();
    expect(browser.open().offered?.text).toBe('older');
  });

  test('kept by an earlier version under one key for all is offered', () => {
    const browser = new Tabs();
    browser.shared.setItem('fairlath.job-before', 'part: Old\n');
    const tab = browser.open();
    expect(tab.offered?.text).toBe('part: Old\n');
    tab.leave();
    expect(browser.open().offered).toBeUndefined();
  });

  test('that is the part a fresh page shows is not offered', () => {
    const browser = new Tabs();
    browser.shared.setItem('fairlath.job', FIRST);
    expect(browser.open().offered).toBeUndefined();
  });

  test('with more jobs than are kept: the oldest goes', () => {
    const browser = new Tabs();
    for (let i = 0; i <= MAX_VISITS; i++) {
      browser.open().type(`job ${i}`);
      for (const tab of browser.tabs) tab.close();
    }
    expect(texts(browser.shared)).toEqual(Array.from({ length: MAX_VISITS }, (_, i) => `job ${i + 1}`));
  });
});

describe('a tab', () => {
  test('that has changed nothing writes no job and removes none, whatever it sees of the store', () => {
    const browser = new Tabs();
    const [idle, busy] = [browser.open(), browser.open()];
    busy.type('old');
    idle.catchUp();
    busy.type('new');
    // It has not heard of the new text.
    for (const _ of ['rest', 'pagehide']) idle.rest();
    idle.reload();
    expect(texts(browser.shared)).toEqual(['new']);
    expect([idle.view.touched, idle.session.touched]).toEqual([[], []]);
  });

  test('is offered its own job first, though another tab has kept one later', () => {
    const browser = new Tabs();
    const [one, other] = [browser.open(), browser.open()];
    one.type('one');
    other.type('other');
    expect(one.reload().offered?.text).toBe('one');
    expect(other.reload().offered?.text).toBe('other');
  });

  test('keeps its job though another turns it down, unchanged or gone on', () => {
    const browser = new Tabs();
    const one = browser.open();
    one.type('one');
    browser.open().leave();
    browser.catchUp();
    expect(texts(browser.shared)).toEqual(['one']);
    const other = browser.open();
    one.type('one, gone on');
    // It still sees the old text.
    other.leave();
    browser.catchUp();
    expect(texts(browser.shared)).toEqual(['one, gone on']);
  });

  test('that goes back to the first part keeps what it had', () => {
    const browser = new Tabs();
    const tab = browser.open();
    tab.type('mine');
    tab.type(FIRST);
    expect(tab.reload().offered?.text).toBe('mine');
  });

  test('that is duplicated shares no key with its copy', () => {
    const browser = new Tabs();
    const tab = browser.open();
    tab.type('mine');
    const copied = new Shelf();
    for (const [key, value] of tab.session.items) copied.setItem(key, value);
    const copy = browser.open(copied);
    expect(copy.offered?.text).toBe('mine');
    copy.type('copy');
    tab.type('mine, gone on');
    expect(texts(browser.shared).sort()).toEqual(['copy', 'mine, gone on']);
  });

  test('of more than are kept writes its job again once, and none removes another in turn', () => {
    const browser = new Tabs();
    const tabs = Array.from({ length: MAX_VISITS + 4 }, () => browser.open());
    for (const [i, tab] of tabs.entries()) tab.type(`job ${i}`);
    browser.catchUp();
    const written = tabs.map(({ view }) => view.touched.length);
    browser.catchUp();
    expect(texts(browser.shared)).toHaveLength(tabs.length);
    expect(tabs.map(({ view }) => view.touched.length)).toEqual(written);
  });

  const action = fc.record({
    tab: fc.nat({ max: 3 }),
    what: fc.constantFrom('type', 'type', 'undo', 'take', 'leave', 'reload', 'crash', 'open', 'hear', 'hear'),
  });

  test('loses nothing, whatever two and three tabs do in whatever order', () => {
    fc.assert(
      fc.property(fc.array(action, { maxLength: 40 }), (actions) => {
        const browser = new Tabs();
        browser.open();
        /** Jobs of visits that have ended, and that nobody has turned down or taken up. */
        const left = new Set<string>();
        for (const [i, { tab: number, what }] of actions.entries()) {
          const open = [...browser.tabs];
          const tab = open[number % Math.max(open.length, 1)];
          if (!tab || what === 'open') {
            if (open.length < 3) browser.open();
            continue;
          }
          if (what === 'reload' || what === 'crash') {
            // What others did to its job, a tab that has ended hears no more.
            tab.catchUp();
            if (tab.kept !== undefined) left.add(tab.kept);
          }
          if (what === 'take' || what === 'leave') left.delete(tab.offered?.text ?? '');
          if (what === 'type') tab.type(`job ${i}`);
          else if (what === 'undo') tab.type(FIRST);
          else if (what === 'take') tab.take();
          else if (what === 'leave') tab.leave();
          else if (what === 'reload') tab.reload();
          else if (what === 'crash') tab.close();
          else tab.catchUp();
        }
        browser.catchUp();
        const kept = texts(browser.shared);
        for (const tab of browser.tabs) if (tab.kept !== undefined) expect(kept).toContain(tab.kept);
        // Where no more visits have kept a job than a store keeps, none of them can have been dropped.
        if (new Set(browser.shared.touched).size <= MAX_VISITS)
          for (const text of left) expect(kept).toContain(text);
      }),
      { numRuns: 500 },
    );
  });
});

describe('a store', () => {
  test('that is full: the job of the last visit is offered at every opening until there is room', () => {
    const browser = new Tabs();
    browser.open().type('mine');
    browser.shared.room = 0;
    const tab = browser.open();
    expect(tab.offered?.text).toBe('mine');
    expect(tab.rest()).toBe(false);
    expect(tab.type('other work')).toBe(false);
    const next = browser.open();
    expect(next.offered?.text).toBe('mine');
    next.take();
    expect(texts(browser.shared)).toEqual(['mine']);
    browser.shared.room = 1000;
    const last = browser.open();
    last.take();
    expect(last.rest()).toBe(true);
    expect(last.reload().offered?.text).toBe('mine');
  });

  test('that is full keeps the text before, and the tab its own', () => {
    const browser = new Tabs();
    const tab = browser.open();
    expect(tab.type('mine')).toBe(true);
    tab.view.room = 0;
    expect(tab.type('mine, gone on')).toBe(false);
    expect(texts(browser.shared)).toEqual(['mine']);
    expect(tab.reload().offered?.text).toBe('mine, gone on');
  });

  test('that has room again is written at the next rest, though nothing has changed since', () => {
    const browser = new Tabs();
    browser.shared.room = 0;
    const tab = browser.open();
    expect(tab.type('mine')).toBe(false);
    tab.view.room = browser.shared.room = 1000;
    expect(tab.rest()).toBe(true);
    expect(texts(browser.shared)).toEqual(['mine']);
  });

  test('that refuses to write offers what it holds', () => {
    const browser = new Tabs();
    browser.open().type('mine');
    const session = new Shelf();
    session.room = browser.shared.room = 0;
    const tab = browser.open(session);
    expect(tab.offered?.text).toBe('mine');
    expect(tab.rest()).toBe(false);
  });

  test('that is switched off keeps nothing and says so; the tab’s own works without it', () => {
    const browser = new Tabs();
    browser.shared.isOff = true;
    const tab = browser.open();
    expect(tab.offered).toBeUndefined();
    expect(tab.type('mine')).toBe(false);
    expect(tab.reload().offered?.text).toBe('mine');
    const session = new Shelf();
    session.isOff = true;
    const other = browser.open(session);
    expect(other.type('other')).toBe(false);
    expect(other.reload().offered).toBeUndefined();
  });
});
