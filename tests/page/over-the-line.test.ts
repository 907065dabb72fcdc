import { describe, expect } from 'vitest';
import { test } from './browser.ts';

describe('laid over the line', () => {
  test('other curves with what they are off at worst', async ({ openPage }) => {
    const { page } = await openPage();
    await page.getByLabel('arc', { exact: true }).check();
    const said = page.locator('#beside-said button');
    await said.waitFor();
    // The same as `fairlath show` says of this leg.
    expect((await said.textContent())?.replaceAll('\u00a0', ' ')).toContain(
      'is 3⁄16″ off at station 27 7⁄32',
    );
    expect(await page.locator('.beside path').count()).toBe(1);
  });

  test('their words keep clear of each other, on a phone too', async ({ openPage }) => {
    const { page } = await openPage({ viewport: { width: 390, height: 844 } });
    for (const kind of ['arc', 'bow', 'spline']) await page.getByLabel(kind, { exact: true }).check();
    const words = page.locator('.beside text');
    await expect.poll(() => words.count()).toBe(3);
    const boxes = await Promise.all((await words.all()).map(async (each) => (await each.boundingBox())!));
    for (const [i, a] of boxes.entries())
      for (const b of boxes.slice(i + 1)) {
        // A box is taller than its letters, which stand 17 px high.
        const apart = Math.max(a.x - b.x - b.width, b.x - a.x - a.width, Math.abs(a.y - b.y) - 17);
        expect(apart).toBeGreaterThanOrEqual(0);
      }
  });

  test('the curvature as teeth', async ({ openPage }) => {
    const { page } = await openPage();
    await page.getByLabel('curvature comb').check();
    expect(await page.locator('.comb path').getAttribute('d')).toMatch(/^M.*L/);
  });

  test('a figure shows its place when it is pointed at', async ({ openPage }) => {
    const { page } = await openPage();
    await page.getByRole('button', { name: 'least width' }).hover();
    expect(await page.locator('.places .ring').getAttribute('visibility')).toBe('visible');
    await page.getByRole('button', { name: 'length of the batten' }).hover();
    expect(await page.locator('.places .edge').getAttribute('d')).toMatch(/^M/);
  });
});
