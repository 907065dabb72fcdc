import { parseJob } from '../../src/job/parse-job.ts';
import { makePart } from '../../src/part/make-part.ts';
import type { Part } from '../../src/part/part.ts';
import type { Random } from '../fuzz/random.ts';
import { spread } from './cases.ts';

/** A number as a job has it. */
const num = (value: number): string => value.toFixed(9);
const place = (x: number, y: number): string => `[${num(x)}, ${num(y)}]`;
const either = (random: Random): 1 | -1 => (random.next() < 0.5 ? 1 : -1);

const KINDS = ['line', 'arc', 'bow', 'batten', 'nails', 'taper', 'spline'] as const;

/** One step of an edge from one place to another: the flattest rises 1/100,000 of its chord, the highest 3/20. */
function stepOf(random: Random, [x0, y0]: readonly [number, number], [x1, y1]: readonly [number, number]) {
  const chord = Math.hypot(x1 - x0, y1 - y0);
  const rise = either(random) * chord * spread(random, 1e-5, 0.15);
  const over = (share: number, height: number): string =>
    place(
      x0 + (x1 - x0) * share - ((y1 - y0) / chord) * height,
      y0 + (y1 - y0) * share + ((x1 - x0) / chord) * height,
    );
  const [kind, share] = [random.pick(KINDS), 0.2 + 0.6 * random.next()];
  const through = [0.3, 0.7].map((at) => over(at, rise * (0.8 + 0.2 * random.next()))).join(', ');
  const thick = chord / 200;
  const more = {
    line: '',
    arc: `rise: ${num(rise)}`,
    bow: `rise: ${num(rise)}`,
    batten: `through: ${over(share, rise)}`,
    nails: `through: [${through}]`,
    taper: `through: ${over(share, rise)}, strip: {from: ${num(thick)}, to: ${num(thick * (0.4 + share))}}`,
    spline: `through: [${through}]`,
  }[kind];
  const name = kind === 'nails' || kind === 'taper' ? 'batten' : kind;
  return `    - {${name}: ${place(x1, y1)}${more && `, ${more}`}}\n`;
}

function edgeOf(random: Random, name: string, length: number, height: number): string {
  const count = 1 + random.below(3);
  const corners = Array.from({ length: count + 1 }, (_, i): [number, number] => {
    const aside = i === 0 || i === count ? 0 : 0.4 * (random.next() - 0.5);
    return [(length * (i + aside)) / count, height + 0.02 * length * (random.next() - 0.5)];
  });
  const steps = corners.slice(1).map((to, i) => stepOf(random, corners[i]!, to));
  return `  ${name}:\n    - from: ${place(...corners[0]!)}\n${steps.join('')}`;
}

/** As far as an end leans here either way, degrees. */
const LEAN = 35;

/**
 * A closed part from 20 mm to 50 m long, of any curves, its ends leaning any way through wood up to a fifth as thick
 * as it is long, and a line to saw to.
 * @throws Faults where its edges cross
 */
export function anyPart(random: Random): Part {
  const length = spread(random, 20, 50_000);
  const lean = (): string => num(either(random) * LEAN * random.next());
  const end = (): string => `{rake: ${lean()}, splay: ${lean()}}`;
  const text = `part: Any part
units: mm
stock: {thickness: ${num(length * spread(random, 0.01, 0.2))}}
edges:
${edgeOf(random, 'under', length, 0)}${edgeOf(random, 'over', length, length * spread(random, 0.05, 0.5))}ends: {left: ${end()}, right: ${end()}}
allowance: {saw: ${num(length * spread(random, 0.0005, 0.01))}}
`;
  return makePart(parseJob(text).job);
}
