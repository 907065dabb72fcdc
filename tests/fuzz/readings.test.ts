import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { checkEdge } from '../../src/check/check-edge.ts';
import { takeOff } from '../../src/check/fit/take-off.ts';
import { writeTakeOffJob } from '../../src/check/fit/take-off-job.ts';
import { readReadings } from '../../src/check/readings/read-readings.ts';
import { parseJob } from '../../src/job/parse/parse-job.ts';
import { makePart } from '../../src/part/make-part.ts';
import { REFERENCE_LINE } from '../../src/part/offsets.ts';
import { samplePart } from '../part/jobs.ts';
import { expectFinite, expectHelpful, faultsOf } from './answers.ts';
import { mutated } from './mutate.ts';
import { Random, ROUNDS } from './random.ts';

const READINGS = readFileSync(new URL('../../samples/hall-bench-leg-measured.csv', import.meta.url), 'utf8');
const A_ROUND = 300;
/** One good file in so many has its curve taken off, which takes as long as a hundred are checked. */
const TAKEN_OFF = 60;

const part = samplePart('hall-bench-leg.yaml');
const edge = part.edges[1]!;

test('readings with anything wrong in them are used, or every mistake is told with its cure', () => {
  let good = 0;
  for (let i = 0; i < A_ROUND * ROUNDS; i++) {
    const random = new Random(i);
    const text = mutated(READINGS, random);
    try {
      const faults = faultsOf(() => {
        const readings = readReadings(text, random.pick(['in', 'mm'] as const));
        expectFinite(
          checkEdge(part, edge, readings, { base: REFERENCE_LINE, tolerance: 1, beforeSanding: false }),
        );
        if (good++ % TAKEN_OFF > 0) return;
        const taken = takeOff(readings, part.rule);
        expectFinite(makePart(parseJob(writeTakeOffJob(taken, 'Leg', part.rule)).job).bounds);
      });
      for (const fault of faults) expectHelpful(fault);
    } catch (error) {
      throw new Error(`readings ${i} of this seed:\n${text}`, { cause: error });
    }
  }
  expect(good).toBeGreaterThan((A_ROUND * ROUNDS) / 20);
}, 600_000);
