import { expect, test } from 'vitest';
import { indistinguishableKinds, takeOff } from '../../src/check/fit/take-off.ts';
import { HAND_SIGMA_MM } from '../../src/check/readings/reading-error.ts';
import { byHand, SIXTEENTHS, THIRTY_SECONDS, trueReadings } from '../check/bench.ts';
import { Random, ROUNDS } from '../fuzz/random.ts';
import { partOf } from '../part/jobs.ts';
import { spread } from './cases.ts';

/** Twenty rounds are a thousand curves: 0.78 of their kinds named first, 0.99 first or as alike. */
const A_ROUND = 50;

function anyRun(random: Random): { kind: 'line' | 'arc' | 'bow' | 'batten'; length: number; text: string } {
  const length = spread(random, 300, 2500);
  const rise = length * spread(random, 0.02, 0.25);
  const kind = random.pick(['line', 'arc', 'bow', 'batten'] as const);
  const nail = `through: [${length * (0.25 + 0.5 * random.next())}, ${20 + rise}]`;
  const by = kind === 'line' ? '' : `, ${kind === 'batten' ? nail : `rise: ${rise}`}`;
  return { kind, length, text: `{${kind}: [${length}, 40]${by}}` };
}

test('a curve read by hand is named by its kind, or told to be like it; what is told apart seldom is another', () => {
  let [known, sure, wrong] = [0, 0, 0];
  const count = A_ROUND * ROUNDS;
  for (let i = 0; i < count; i++) {
    const random = new Random(i);
    const { kind, length, text } = anyRun(random);
    const [edge] = partOf(`part: R\nunits: mm\nedges:\n  a:\n    - from: [0, 20]\n    - ${text}\n`).edges;
    const [rule, places] = [random.pick([THIRTY_SECONDS, SIXTEENTHS]), random.pick([6, 9, 13, 20, 30])];
    const stations = Array.from({ length: places }, (_, k) => (length * k) / (places - 1));
    const taken = takeOff(
      byHand(trueReadings(edge!, stations), rule, HAND_SIGMA_MM, () => random.next()),
      rule,
    );
    const others = indistinguishableKinds(taken);
    const isNamed = taken.kinds[0].kind === kind;
    if (isNamed || others.some((other) => other.kind === kind)) known++;
    if (others.length > 0) continue;
    sure++;
    if (!isNamed) wrong++;
  }
  expect(known / count).toBeGreaterThan(0.92);
  // What is not told as alike is as likely as one in twelve at the most; two of the few of one round are chance.
  expect(wrong).toBeLessThanOrEqual(2 + sure / 12);
}, 600_000);
