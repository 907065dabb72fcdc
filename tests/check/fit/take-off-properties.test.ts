import fc from 'fast-check';
import { expect, test } from 'vitest';
import { takeOff } from '../../../src/check/fit/take-off.ts';
import { writeTakeOffJob } from '../../../src/check/fit/take-off-job.ts';
import { defaultRule, parseGraduation } from '../../../src/units/rule.ts';
import { partOf } from '../../part/jobs.ts';
import { IN, normal, seeded } from '../bench.ts';

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
    { numRuns: 3, endOnFailure: true },
  );
});

test.each(['1/4', '1/8', '1/16'])('nearly straight parts read to %s in give a job that parses', (mark) => {
  const rule = parseGraduation(mark, 'in');
  const { numerator, denominator } = rule.graduation;
  const step = (IN * numerator) / denominator;
  const toMark = (mm: number): number => Math.round(mm / step) * step;
  for (let seed = 1; seed <= 40; seed++) {
    const random = seeded(seed);
    const count = 6 + Math.floor(6 * random());
    const [rise, slope] = [6 * (random() - 0.5), 20 * (random() - 0.5)];
    const readings = Array.from({ length: count }, (_, i) => {
      const u = i / (count - 1);
      const offset = 50 + slope * u + rise * 4 * u * (1 - u) + 0.3 * normal(random);
      return { station: toMark(300 * u), offset: toMark(offset) };
    });
    partOf(writeTakeOffJob(takeOff(readings, rule), 'Rail', rule));
  }
});
