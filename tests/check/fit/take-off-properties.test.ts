import fc from 'fast-check';
import { expect, test } from 'vitest';
import { takeOff } from '../../../src/check/fit/take-off.ts';
import { writeTakeOffJob } from '../../../src/check/fit/take-off-job.ts';
import { defaultRule } from '../../../src/units/rule.ts';
import { partOf } from '../../part/jobs.ts';

test('property: any readings give a curve among them, and a job that parses', () => {
  const reading = fc.record({
    station: fc.integer({ min: 0, max: 2000 }),
    offset: fc.integer({ min: -300, max: 300 }),
  });
  const readings = fc.uniqueArray(reading, {
    minLength: 6,
    maxLength: 20,
    selector: ({ station }) => station,
  });
  fc.assert(
    fc.property(readings, (all) => {
      const rule = defaultRule('mm');
      const taken = takeOff(all, rule);
      const { kinds } = taken;
      for (const { rms, worst } of kinds) expect(worst).toBeGreaterThanOrEqual(rms);
      partOf(writeTakeOffJob(taken, 'Any', rule));
    }),
    { numRuns: 2, endOnFailure: true },
  );
});
