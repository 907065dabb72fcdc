import { SAMPLES, sampleText } from '../part/jobs.ts';
import { test } from './browser.ts';
import { compareAll } from './same.ts';

test.for(SAMPLES.filter((name) => name.startsWith('hall-bench')))(
  'the page and the commands tell the same figures and make the same papers: %s',
  (name, { openPage }) => compareAll(openPage, name, sampleText(name)),
);
