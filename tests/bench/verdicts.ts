import { IN } from '../check/bench.ts';
import { type SawnSet, sawnCases } from '../stress/verdicts/check-cases.ts';
import { isFair, lineCases, oddStation, percent, rankOf } from '../stress/verdicts/fairness-cases.ts';
import { HELD_SHAPES, type TakenShape, takenVerdicts } from '../stress/verdicts/take-off-cases.ts';
import type { Figure } from './figure.ts';

/** How often a verdict on a part of known truth is wrong. */
export const verdictFigures = (): Figure[] => [...fairness(), ...takingOff(), ...checking()];

const share = (name: string, value: number, goal?: number): Figure => ({
  name,
  value,
  unit: '% of cases',
  ...(goal !== undefined && { goal }),
});

function fairness(): Figure[] {
  const set = { rises: [0.01, 0.03, 0.06, 0.1, 0.2], nails: [1, 3, 4, 6, 8, 11], seeds: 3 };
  const unfair = (graduation: number): number =>
    percent(lineCases({ ...set, graduation }), ({ smooth }) => rankOf(smooth) >= 2);
  const shallow = lineCases({ rises: [0.01, 0.02], nails: [8, 11], graduation: 0, seeds: 6 });
  const many = [...lineCases({ ...set, nails: [4, 6, 8, 11], graduation: 0, seeds: 1 })];
  const bumped = many.map(({ bumped, movedStation }) => ({ movedStation, line: bumped(IN / 32) }));
  const odd = bumped.filter(({ line }) => oddStation(line) !== undefined);
  const growing = percent(many, ({ bumped }) => {
    const ranks = [1, 2, 4, 8, 12].map((parts) => rankOf(bumped((parts * IN) / 64)));
    return ranks.some((rank, i) => i > 0 && rank < (ranks[i - 1] ?? 0));
  });
  return [
    share('smooth line called doubtful or not fair', unfair(0), 1),
    share('smooth line rounded to 1/64 in called doubtful or not fair', unfair(IN / 64), 4),
    share(
      'smooth shallow line, 8 nails or more: not plainly fair',
      percent(shallow, ({ smooth }) => !isFair(smooth)),
      1,
    ),
    share(
      'any line with a nail 1/32 in out called plainly fair',
      percent(bumped, ({ line }) => isFair(line)),
      0.5,
    ),
    share(
      'any line with a nail 1/32 in out called doubtful or not fair',
      percent(bumped, ({ line }) => rankOf(line) >= 2),
    ),
    share(
      'any line with a nail 1/32 in out: another nail named',
      percent(odd, ({ line, movedStation }) => oddStation(line) !== movedStation),
      10,
    ),
    share('verdict that gets better as a bump grows', growing, 2),
  ];
}

function takingOff(): Figure[] {
  const none = takenVerdicts({ seeds: 2 });
  const held = takenVerdicts({ shapes: Object.keys(HELD_SHAPES) as TakenShape[], readings: [13, 25] });
  const wrong = takenVerdicts({ readings: [13, 25], wrongBy: [5, 12] });
  const few = takenVerdicts({ rises: [0.03, 0.1, 0.2], readings: [9], wrongBy: [5], seeds: 2 });
  return [
    share(
      'taken off, no wrong reading: one named',
      percent(none, ({ blamed }) => blamed > 0),
      3,
    ),
    share(
      'taken off, no wrong reading: farther than 3 errors',
      percent(none, ({ worst }) => worst > 3),
      1,
    ),
    share(
      'taken off, held or beside a straight part: farther',
      percent(held, ({ worst }) => worst > 3),
      3,
    ),
    share(
      'taken off, one reading 5 or 12 mm wrong: not named',
      percent(wrong, ({ named }) => !named),
      5,
    ),
    share(
      'taken off, one of nine readings 5 mm wrong: not named',
      percent(few, ({ named }) => !named),
      5,
    ),
    share(
      'taken off, one reading wrong: a good one named',
      percent(wrong, ({ blamed }) => blamed > 0),
      2,
    ),
  ];
}

function checking(): Figure[] {
  const cases = (set: Partial<SawnSet>) => [
    ...sawnCases({ readings: [9, 15, 25], hands: [0.1, 0.25], seeds: 3, ...set }),
  ];
  const [true_, wrong] = [cases({}), cases({ wrongBy: 5 })];
  const without = (set: Partial<SawnSet>, code: string): number =>
    percent(cases(set), ({ codes }) => !codes.includes(code));
  return [
    share(
      'checked, a true part: something said of it',
      percent(true_, ({ codes }) => codes.length > 0),
      3,
    ),
    share(
      'checked, a true part: outside',
      percent(true_, ({ check }) => check.verdict === 'outside'),
      0,
    ),
    share(
      'checked, one reading 5 mm wrong: not named',
      percent(wrong, ({ blamed, wrongStation }) => !blamed.some((at) => at === wrongStation)),
      5,
    ),
    share(
      'checked, one reading wrong: a good one named',
      percent(wrong, ({ blamed, wrongStation }) => blamed.some((at) => at !== wrongStation)),
      2,
    ),
    share('checked, a rise 1.5 mm too large: not told', without({ rise: 1.5 }, 'check.wrong-rise'), 10),
    share('checked, lying 4 mm crooked: not told', without({ turn: 4 }, 'check.set-crooked'), 10),
  ];
}
