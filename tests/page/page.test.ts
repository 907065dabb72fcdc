import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe } from 'vitest';
import { startBrowser } from './browser.ts';
import { handTests } from './hand.ts';
import { jobTests } from './jobs.ts';
import { lookTests } from './looks.ts';
import { paperTests } from './papers.ts';

// One browser for everything: it takes longer to start than any test.
let browser: Browser;
beforeAll(async () => {
  browser = await startBrowser();
});
afterAll(() => browser.close());

const started = (): Browser => browser;
// A browser on a busy machine now and then loses an event: what fails twice is broken.
describe('the page', { retry: 1 }, () => {
  handTests(started);
  jobTests(started);
  paperTests(started);
  lookTests(started);
});
