import { expect, test } from 'vitest';
import { takeOff } from '../../../src/check/fit/take-off.ts';
import { MAX_READINGS } from '../../../src/check/readings/read-readings.ts';
import { defaultRule } from '../../../src/units/rule.ts';
import { noise } from '../bench.ts';

// How long it takes, npm run bench tells; a search without end runs into the time limit of a test.
test('takeOff of many random readings finds no kind that fits', () => {
  const { kinds, sigma } = takeOff(noise(MAX_READINGS), defaultRule('mm'));
  for (const { rms } of kinds) expect(rms).toBeGreaterThan(10 * sigma);
});
