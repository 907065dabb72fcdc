import type { Browser } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { startBrowser } from './browser.ts';
import { handTests } from './hand.ts';
import { jobTests } from './jobs.ts';
import { lateTests } from './late.ts';
import { lookTests } from './looks.ts';
import { meanwhileTests } from './meanwhile.ts';
import { nailTests } from './nails.ts';
import { paperTests } from './papers.ts';

// One browser for everything: it takes longer to start than any test.
let browser: Browser;
beforeAll(async () => {
  browser = await startBrowser();
});
afterAll(() => browser.close());

const started = (): Browser => browser;
handTests(started);
nailTests(started);
jobTests(started);
meanwhileTests(started);
lateTests(started);
paperTests(started);
lookTests(started);
