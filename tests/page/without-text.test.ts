import { describe, expect } from 'vitest';
import { readPart } from '../../src/part/read-part.ts';
import { test } from './browser.ts';
import { jobText, rested } from './on-page.ts';

const open = async (page: Parameters<typeof jobText>[0], id: string): Promise<void> => {
  await page.locator(`#${id} > summary`).click();
};

describe('a part is changed without its text', () => {
  test('its kind of curve, held ends, joints, wood and name', async ({ openPage }) => {
    const { page, complaints } = await openPage();
    for (const id of ['curve-panel', 'joints-panel', 'part-panel']) await open(page, id);
    await page.getByLabel('kind', { exact: true }).selectOption('spline');
    await page.getByLabel('left end of the curve').selectOption('held');
    await page.locator('#joint-add').click();
    for (const [label, typed] of [
      ['length', '2 1/2'],
      ['label', 'apron'],
      ['name', 'Garden bench leg'],
      ['wood', 'black walnut'],
      ['grain, degrees from the reference line', '3'],
    ] as const) {
      await page.getByLabel(label, { exact: true }).fill(typed);
      await page.keyboard.press('Enter');
    }
    await rested(page);
    const { part } = readPart(await jobText(page));
    expect(part.edges[1]?.runs[0]?.kind).toBe('spline');
    expect(part.joints[0]).toMatchObject({ kind: 'mortise', length: 63.5, label: 'apron' });
    expect(part).toMatchObject({ name: 'Garden bench leg', stock: { species: 'black walnut' } });
    expect(await page.locator('h1').textContent()).toBe('Garden bench leg');
    await page.locator('#joint-remove').click();
    expect(readPart(await jobText(page)).part.joints).toEqual([]);
    expect(complaints).toEqual([]);
  });

  test('its ends by angles, and as it stands on the floor', async ({ openPage }) => {
    const { page } = await openPage();
    await open(page, 'ends-panel');
    await page.getByLabel('ends are').selectOption('own');
    await page.getByLabel('left end', { exact: true }).selectOption('saw');
    await page.getByLabel('miter, degrees').fill('6');
    await page.keyboard.press('Enter');
    const ends = async () => readPart(await jobText(page)).part.ends?.map(({ angles }) => angles.miter);
    expect((await ends())?.[0]).toBeCloseTo((6 * Math.PI) / 180, 9);
    await page.getByLabel('ends are').selectOption('stands');
    await page.getByLabel('foot out toward', { exact: true }).selectOption('back');
    await page.getByLabel('foot out toward, by degrees').fill('8');
    await page.keyboard.press('Enter');
    const eight = (8 * Math.PI) / 180;
    expect((await ends())?.map(Math.abs)).toEqual([expect.closeTo(eight, 9), expect.closeTo(eight, 9)]);
    await page.getByLabel('ends are').selectOption('square');
    expect(await ends()).toEqual([0, 0]);
  });

  test('a straight edge is split, bent, and made whole again', async ({ openPage }) => {
    const { page } = await openPage();
    await open(page, 'curve-panel');
    await page.locator('#curve-step').selectOption({ label: 'front' });
    await page.getByRole('button', { name: 'Split in the middle' }).click();
    await page.getByLabel('kind', { exact: true }).selectOption('arc');
    const runs = async () => readPart(await jobText(page)).part.edges[0]?.runs.map(({ kind }) => kind);
    expect(await runs()).toEqual(['arc', 'line']);
    await page.getByRole('button', { name: 'Remove this stretch' }).click();
    expect(await runs()).toEqual(['line']);
  });

  test('a wrong value stays in its field with its message, and the part stays', async ({ openPage }) => {
    const { page } = await openPage();
    await open(page, 'part-panel');
    const before = await jobText(page);
    const field = page.getByLabel('thickness, in', { exact: true });
    await field.fill('thick');
    await field.press('Enter');
    expect(await page.locator('#part-fields .wrong:not(:empty)').textContent()).toContain('has no number');
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    expect(await jobText(page)).toBe(before);
  });
});
