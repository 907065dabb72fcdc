import { Faults } from '../../src/units/fault.ts';
import { Random, ROUNDS } from '../fuzz/random.ts';
import { anyJob, anyPart } from '../stress/part-cases.ts';
import { test } from './browser.ts';
import { compareAll } from './same.ts';

/** Parts of any shape beside our own, none so long that its pattern takes the most of the time, mm. */
const [ANY, LONGEST] = [ROUNDS, 1500];

/** The next seed of a job that makes such a part. */
function soundFrom(seed: number): number {
  try {
    if (anyPart(new Random(seed)).bounds.right < LONGEST) return seed;
  } catch (error) {
    if (!(error instanceof Faults)) throw error;
  }
  return soundFrom(seed + 1);
}

function anyJobs(): (readonly [string, string])[] {
  const jobs: (readonly [string, string])[] = [];
  let seed = 0;
  while (jobs.length < ANY) {
    seed = soundFrom(seed + 1);
    jobs.push([`any part, ${seed}`, anyJob(new Random(seed))]);
  }
  return jobs;
}

test.for(anyJobs())(
  'the page and the commands tell the same figures and make the same papers: %s',
  ([name, text], { openPage }) => compareAll(openPage, name, text),
);
