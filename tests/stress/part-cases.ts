import { parseJob } from '../../src/job/parse/parse-job.ts';
import { makePart } from '../../src/part/make-part.ts';
import type { Part } from '../../src/part/part.ts';
import type { Random } from '../fuzz/random.ts';
import { either, spread } from './cases.ts';

/** A number as a job has it. */
const num = (value: number): string => value.toFixed(9);
const place = (x: number, y: number): string => `[${num(x)}, ${num(y)}]`;
type Corner = readonly [x: number, y: number];
const lineTo = (corner: Corner): string => `    - {line: ${place(...corner)}}\n`;

const KINDS = ['line', 'arc', 'bow', 'batten', 'nails', 'taper', 'spline'] as const;

/** One run of an edge from one place to another: the flattest rises 1/100,000 of its chord, the highest 3/20. */
function runOf(random: Random, [x0, y0]: Corner, [x1, y1]: Corner): string {
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

/** A share of a part's length, over 0, that a shoulder steps up or down: a quirk or a tenon's. */
const stepOf = (random: Random, length: number): number =>
  either(random) * length * spread(random, 2e-4, 0.02);

/** How many of the corners within an edge have a shoulder. */
const SHOULDERED = 0.3;

/**
 * An edge of one to three runs, a shoulder at some of the corners between them; over tenons as long as given, it has one
 * at either.
 */
function edgeOf(random: Random, name: string, length: number, height: number, tenon: number): string {
  const count = 1 + random.below(3);
  const body = length - 2 * tenon;
  const corners = Array.from({ length: count + 1 }, (_, i): Corner => {
    const aside = i === 0 || i === count ? 0 : 0.4 * (random.next() - 0.5);
    return [tenon + (body * (i + aside)) / count, height + 0.02 * length * (random.next() - 0.5)];
  });
  const [first, last] = [corners[0]!, corners.at(-1)!];
  const steps: string[] = [];
  let at = first;
  for (const to of corners.slice(1)) {
    steps.push(runOf(random, at, to));
    at = to;
    if (to === last || random.next() > SHOULDERED) continue;
    at = [to[0], to[1] + stepOf(random, length)];
    steps.push(lineTo(at));
  }
  if (tenon === 0) return edgeText(name, first, steps);
  const [left, right] = [first, last].map(([, y]) => y + stepOf(random, length)) as [number, number];
  const from = [lineTo([tenon, left]), lineTo(first)];
  const back = [lineTo([length - tenon, right]), lineTo([length, right])];
  return edgeText(name, [0, left], [...from, ...steps, ...back]);
}

const edgeText = (name: string, from: Corner, steps: readonly string[]): string =>
  `  ${name}:\n    - from: ${place(...from)}\n${steps.join('')}`;

/** As far as an end leans here either way, degrees. */
const LEAN = 35;

/**
 * A closed part from 20 mm to 50 m long, of any curves and shoulders, some with a tenon at either end, its ends
 * leaning any way through wood up to a fifth as thick as it is long, holes near its shoulders, and a line to saw to.
 */
export function anyJob(random: Random): string {
  const length = spread(random, 20, 50_000);
  const tenon = random.next() < 0.3 ? length * spread(random, 0.005, 0.2) : 0;
  const height = length * spread(random, 0.05, 0.5);
  const edges = [
    edgeOf(random, 'under', length, 0, tenon),
    edgeOf(random, 'over', length, height, tenon),
  ].join('');
  const lean = (): string => num(either(random) * LEAN * random.next());
  const end = (): string =>
    random.next() < 0.3 ? '{rake: 0, splay: 0}' : `{rake: ${lean()}, splay: ${lean()}}`;
  const shoulders = [...edges.matchAll(/: \[([\d.]+), .*\n.*line: \[\1,/g)].map(([, at]) => at);
  const holes = [...new Set(shoulders)].map(
    (at) => `  - hole: {at: ${at}, out: ${num(height / 2)}, diameter: ${num(height / 50)}}\n`,
  );
  return `part: Any part
units: mm
stock: {thickness: ${num(length * spread(random, 0.01, 0.2))}}
edges:
${edges}ends: {left: ${end()}, right: ${end()}}
${holes.length > 0 ? `joints:\n${holes.join('')}` : ''}allowance: {saw: ${num(length * spread(random, 0.0005, 0.01))}}
`;
}

/** @throws Faults where its edges cross, an end cuts a shoulder off, or a notch is too narrow for the saw line */
export const anyPart = (random: Random): Part => makePart(parseJob(anyJob(random)).job);
