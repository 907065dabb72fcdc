import type { Browser, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { begin, grip, jobText, middleOf, NAIL, openJobFile, openPage, rested } from './browser.ts';

const END = 'edges.back[1].batten';

/** The leg's list of nails as it is written. */
const nails = async (page: Page): Promise<string> => /through: (.*?) *#/.exec(await jobText(page))?.[1] ?? '';

/** A place a little off the line of the back, between its nail and its right end. */
async function besideLine(page: Page): Promise<{ x: number; y: number }> {
  const [nail, end] = [await middleOf(page, NAIL), await middleOf(page, END)];
  return { x: (nail.x + end.x) / 2, y: nail.y + 6 };
}

const set = (page: Page) => page.getByRole('button', { name: 'Set a nail' });
const out = (page: Page) => page.getByRole('button', { name: /^Take it out/ });
const inHand = (page: Page) => page.evaluate('document.activeElement.dataset.key');
const faults = (page: Page) => page.locator('#faults').textContent();

export function nailTests(browser: () => Browser): void {
  describe('nails on the drawing', () => {
    test('by mouse: one is set where the line is touched, the rest of the text as it was, undone in one step', async () => {
      const { page, complaints } = await openPage(browser());
      const before = await jobText(page);
      await set(page).click();
      expect(await set(page).getAttribute('aria-pressed')).toBe('true');
      const { x, y } = await besideLine(page);
      await page.mouse.move(x, y);
      expect(await page.locator('.setting text').textContent()).toMatch(/^nail 2\d/);
      await page.mouse.click(x, y);
      expect(await nails(page)).toMatch(/^\[\[12, 3 1\/4\], \[2\d[ \d/]*, [23][ \d/]*\]\]$/);
      expect((await jobText(page)).replace(/through: .*? *#/, '')).toBe(
        before.replace(/through: .*? *#/, ''),
      );
      expect(await set(page).getAttribute('aria-pressed')).toBe('false');
      expect(await grip(page, 'edges.back[1].through[1]').getAttribute('aria-label')).toBe('back, nail 2');
      await page.locator('#back').click();
      expect(await jobText(page)).toBe(before);
      expect(await page.locator('#back').isDisabled()).toBe(true);
      expect(complaints).toEqual([]);
    });

    test('by mouse: it moves on with the hand that set it, all in one step; Escape takes it away', async () => {
      const { page } = await openPage(browser());
      await openJobFile(page);
      const before = await jobText(page);
      const { x, y } = await besideLine(page);
      // Another grip is in hand before.
      await grip(page, NAIL).focus();
      for (const end of ['mouse', 'Escape'] as const) {
        await set(page).click();
        await page.mouse.move(x, y);
        await page.mouse.down();
        await page.mouse.move(x + 60, y - 10, { steps: 4 });
        await page.evaluate(
          'new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))',
        );
        expect(await nails(page)).toMatch(/\[2[45]/);
        if (end === 'Escape') await page.keyboard.press('Escape');
        await page.mouse.up();
        if (end === 'mouse') await page.locator('#back').click();
        expect(await jobText(page)).toBe(before);
      }
    });

    test('by mouse: the one in hand is taken out, and the one beside it comes to hand', async () => {
      const { page } = await openPage(browser());
      expect(await out(page).isVisible()).toBe(false);
      await set(page).click();
      const { x, y } = await besideLine(page);
      await page.mouse.click(x, y);
      await page.mouse.click(...(Object.values(await middleOf(page, NAIL)) as [number, number]));
      await page.getByRole('button', { name: 'Take it out: back, nail 1' }).click();
      expect(await nails(page)).toMatch(/^\[\[2\d[ \d/]*, [23][ \d/]*\]\]$/);
      expect(await inHand(page)).toBe(NAIL);
      await page.locator('#back').click();
      expect(await nails(page)).toContain('[12, 3 1/4], [');
    });

    test('by finger: one is set, and taken out again', async () => {
      const { page } = await openPage(browser(), { hasTouch: true, viewport: { width: 390, height: 844 } });
      await set(page).tap();
      const { x, y } = await besideLine(page);
      await page.touchscreen.tap(x, y);
      expect(await nails(page)).toMatch(/^\[\[12, 3 1\/4\], \[2\d/);
      await out(page).tap();
      expect(await nails(page)).toBe('[[12, 3 1/4]]');
    });

    test('by keyboard: N sets one halfway to the next place, the arrows move it, Delete takes it out', async () => {
      const { page } = await openPage(browser());
      await grip(page, NAIL).focus();
      await page.keyboard.press('n');
      expect(await nails(page)).toMatch(/^\[\[12, 3 1\/4\], \[23, 3 1\/8\]\]$/);
      expect(await inHand(page)).toBe('edges.back[1].through[1]');
      await page.keyboard.press('ArrowRight');
      expect(await nails(page)).toContain('[23 1/32, 3 1/8]');
      await page.keyboard.press('Delete');
      expect(await nails(page)).toBe('[[12, 3 1/4]]');
      expect(await inHand(page)).toBe(NAIL);
      for (const _ of ['taken out', 'moved']) await page.keyboard.press('Control+z');
      expect(await nails(page)).toContain('[23, 3 1/8]');
    });

    test('by keyboard: the button sets one in the widest gap, its neighbour takes it out', async () => {
      const { page } = await openPage(browser());
      await set(page).focus();
      await page.keyboard.press('Enter');
      expect(await nails(page)).toContain('[23, 3 1/8]');
      await grip(page, 'edges.back[1].through[1]').focus();
      await out(page).focus();
      await page.keyboard.press('Enter');
      expect(await nails(page)).toBe('[[12, 3 1/4]]');
      expect(await inHand(page)).toBe(NAIL);
    });

    test('what cannot be is said where mistakes are told, and the part stays', async () => {
      const { page } = await openPage(browser());
      const before = await jobText(page);
      const at = async (key: string): Promise<void> => {
        const { x, y } = await middleOf(page, key);
        await set(page).click();
        await page.mouse.click(x, y);
      };
      await at(NAIL);
      expect(await faults(page)).toMatch(/the same point|does not lie beyond/);
      await page.keyboard.press('Escape');
      await at('edges.front[1].line');
      expect(await faults(page)).toContain('a line takes no nails');
      await page.keyboard.press('Escape');
      await grip(page, NAIL).focus();
      await page.keyboard.press('Delete');
      expect(await faults(page)).toContain('Set another first');
      await grip(page, END).focus();
      await page.keyboard.press('Delete');
      expect(await faults(page)).toContain('only nails of a batten and pins of a spline');
      expect(await page.locator('.faint').count()).toBe(0);
      expect(await jobText(page)).toBe(before);
      await page.keyboard.press('ArrowLeft');
      expect(await page.locator('#faults li').count()).toBe(0);
    });

    test('two hundred are the most', async () => {
      const { page } = await openPage(browser());
      await page.getByText('the job file').click();
      const many = Array.from({ length: 200 }, (_, i) => `[${(i + 1) * 5}, 0]`).join(', ');
      const job = `part: P\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n    - batten: [1100, 0]\n      through: [${many}]\n`;
      await page.locator('#job-text').fill(job);
      await grip(page, 'edges.top[1].through[199]').focus();
      await page.keyboard.press('n');
      expect(await faults(page)).toContain('200 is the most');
      expect(await jobText(page)).toBe(job);
    });

    test('a part that takes none says why; a spline takes pins', async () => {
      const { page } = await openPage(browser());
      await set(page).click();
      await begin(page, 'Garden arch rail');
      expect(await set(page).getAttribute('aria-pressed')).toBe('false');
      await set(page).click();
      expect(await faults(page)).toContain('Write through in place of apex');
      expect(await set(page).getAttribute('aria-pressed')).toBe('false');
      await begin(page, 'Wall shelf bracket');
      const pins = (text: string): number => text.match(/through: .*/)?.[0].match(/\[\d/g)?.length ?? 0;
      const before = pins(await jobText(page));
      await page.getByRole('button', { name: 'Set a pin' }).focus();
      await page.keyboard.press('Enter');
      await rested(page);
      expect(pins(await jobText(page))).toBe(before + 1);
    });
  });
}
