import { describe, expect } from 'vitest';
import { sampleText } from '../part/jobs.ts';
import { test } from './browser.ts';
import { again, anotherTab, shared, takeUp, typeAtOnce } from './kept.ts';
import { begin, jobText, typeStation } from './on-page.ts';

describe('two tabs', () => {
  test('the one that has changed nothing writes nothing and removes nothing', async ({ openPage }) => {
    const { page } = await openPage();
    const other = await anotherTab(page);
    await typeStation(page, '13');
    await other.evaluate("dispatchEvent(new Event('pagehide'))");
    expect(await other.evaluate('touched')).toEqual([]);
    await again(other);
    expect(await other.evaluate('touched')).toEqual([]);
    expect(await shared(page)).toEqual([await jobText(page)]);
    await other.close();
  });

  test('each is offered its own job', async ({ openPage }) => {
    const { page } = await openPage();
    const other = await anotherTab(page);
    const text = await typeAtOnce(page, '14');
    await begin(other, 'Garden arch rail');
    for (const each of [page, other]) await again(each);
    for (const each of [page, other]) await takeUp(each);
    expect(await jobText(page)).toBe(text);
    expect(await jobText(other)).toBe(sampleText('garden-arch-rail.yaml'));
    await other.close();
  });

  test('what one turns down stays kept while the other has it in hand', async ({ openPage }) => {
    const { page } = await openPage();
    await typeStation(page, '13');
    const text = await jobText(page);
    const other = await anotherTab(page);
    await other.getByText('Discard').click();
    expect(await other.evaluate('touched.length')).toBeGreaterThan(0);
    // The tab hears of it in its own time, and writes its job again.
    await expect.poll(() => shared(other), { timeout: 10_000 }).toEqual([text]);
    await other.close();
  });
});
