import { curveFigures } from './curves.ts';
import type { Figure } from './figure.ts';
import { pageFigures } from './page.ts';
import { partFigures } from './parts.ts';
import { processFigures } from './processes.ts';
import { verdictFigures } from './verdicts.ts';

/** Every theme of figures has its file; a new one is added here. */
const THEMES: readonly (() => Figure[] | Promise<Figure[]>)[] = [
  curveFigures,
  partFigures,
  verdictFigures,
  processFigures,
  pageFigures,
];

const figures: Figure[] = [];
for (const theme of THEMES) figures.push(...(await theme()));

const judged = figures.map(({ name, value, unit, goal = null }) => ({
  name,
  value,
  unit,
  goal,
  holds: goal === null ? null : value <= goal,
}));

/** How sure a value is; where it may as well be nothing, it is not told from noise. */
const sureness = ([least, most]: readonly [number, number]): string =>
  least <= 0 && most >= 0 ? '   lost in the noise' : `   (${least.toPrecision(3)} to ${most.toPrecision(3)})`;

if (process.argv.includes('--json')) console.log(JSON.stringify({ figures: judged }, null, 2));
else
  for (const [i, { name, value, unit, goal, holds }] of judged.entries()) {
    const range = figures[i]?.range;
    console.log(
      `${name.padEnd(58)} ${value.toPrecision(3).padStart(10)} ${unit}${range ? sureness(range) : ''}${goal === null ? '' : `   goal ${goal}: ${holds ? 'holds' : 'MISSED'}`}`,
    );
  }
