import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fairlath, root } from '../cli/run.ts';
import { BENCH, SAMPLES } from '../part/jobs.ts';
import { mutated } from './mutate.ts';
import type { Random } from './random.ts';

interface Typed {
  readonly option: string;
  /** What the help says it takes, such as "length"; undefined where it takes nothing. */
  readonly takes: string | undefined;
}

/** Commands that begin with a job or one curve; a page would go on serving. */
const OF_JOBS = ['show', 'print', 'draw', 'offsets', 'batten', 'stock', 'saw', 'card', 'check'] as const;
const OTHERS = ['new n.yaml', 'take-off CSV', 'printer list', 'printer set shop', 'printer sheet'] as const;

/** Every option that a command's help tells of: a new one is tried without a word here. */
function optionsOf(command: string): Typed[] {
  const { out } = fairlath([...command.split(' ').filter((word) => !/[A-Z.]|shop/.test(word)), '--help']);
  return [...out.matchAll(/^ {2}(?:-\w, )?--([\w-]+)(?: <([^>]+)>)?/gm)]
    .map(([, option, takes]) => ({ option: `--${option}`, takes }))
    .filter(({ option }) => option !== '--help');
}

let options: ReadonlyMap<string, readonly Typed[]> | undefined;

const READINGS = join(root, 'samples/hall-bench-leg-measured.csv');
const JOBS = [...SAMPLES, ...BENCH].map((name) => join(root, 'samples', name));

const LENGTHS = [
  '3',
  '1/2',
  '24',
  '12 mm',
  '3/4 in',
  '600 mm',
  '28 3/4',
  '1/64',
  `2' 4"`,
  '0',
  '-1',
  '1e9',
  '',
];
const KINDS = ['arc', 'batten', 'bow', 'spline', 'ellipse', 'line'];
/** What people type for each; what is not named here is a length. */
const VALUES: Readonly<Record<string, readonly string[]>> = {
  size: ['letter', 'a4', 'a3', 'roll:24in', 'roll:600mm', '13x19in', 'roll:1mm', 'roll:999999', '1x1'],
  diameter: ['1/2', '1/4', '3/4', '12mm', '0', '1e6'],
  count: ['2', '3', '7', '40', '0', '1000000', '1.5'],
  degrees: ['0', 'auto', '7', '90', '-45', '0.5', '1e9'],
  name: ['back', 'top', 'white oak', 'ash', 'shop', '__proto__', ''],
  measured: ['199', '200.6mm', '100 %', '98%', '0'],
  kind: KINDS,
  word: ['free', 'held', 'natural', 'held,free', 'x'],
  taper: ['1/4 to 1/8', '6mm to 3mm', '0 to 1'],
  unit: ['in', 'mm', 'ft'],
  layers: ['cut', 'saw', 'cut,saw,joints', 'board', ''],
  angle: ['15', '1 in 12', '-30', '90'],
  line: ['reference', 'chord', 'x'],
  stations: ['6', '6, 12', '-1', Array.from({ length: 99 }, (_, i) => i).join(',')],
  'station=offset': ['6=2', '12=3 1/4', '24=2 19/32', '0=0', '='],
  FILE: ['o.pdf', 'o.svg', 'o.dxf', 'o', '/nowhere/o.pdf', ''],
  'FILE.svg': ['p.svg', 'p.pdf', ''],
  'FILE.csv': [READINGS, 'none.csv'],
  number: ['1', '2', '99'],
  part: ['Leg', '"', ' '],
};
/** What no option takes. */
const ODD = ['NaN', '--', '-', '--json', '🪵', '1e308', '../..', 'x'.repeat(300)];

/** A command line of any command with some of its options, each with something that may well be meant for it. */
export function anyCommand(random: Random, folder: string): string[] {
  options ??= new Map([...OF_JOBS, ...OTHERS].map((command) => [command, optionsOf(command)]));
  const command = random.next() < 0.85 ? random.pick(OF_JOBS) : random.pick(OTHERS);
  const words = command.split(' ').map((word) => (word === 'CSV' ? READINGS : word));
  if (command === 'check')
    words.push(
      ...random.pick([
        ['--measured', READINGS],
        ['--reading', '6=2'],
      ]),
    );
  if (OF_JOBS.some((name) => name === command)) words.push(...anyCurve(random, folder));
  for (let i = random.below(4); i > 0; i--) {
    const { option, takes } = random.pick(options.get(command)!);
    words.push(option, ...(takes === undefined ? [] : [anyValue(random, takes)]));
  }
  return words;
}

/** The sooner in its list, the likelier: most are to be good. */
function anyValue(random: Random, takes: string): string {
  if (random.next() < 0.05) return random.pick(ODD);
  const values = VALUES[takes] ?? LENGTHS;
  return values[Math.floor(random.next() ** 2 * values.length)]!;
}

function anyCurve(random: Random, folder: string): string[] {
  const job = random.pick(JOBS);
  const how = random.next();
  if (how < 0.5) return [job];
  if (how < 0.8) {
    const own = join(folder, 'own.yaml');
    writeFileSync(own, mutated(readFileSync(job, 'utf8'), random));
    return [own];
  }
  return [
    '--curve',
    random.pick(KINDS),
    '--chord',
    anyValue(random, 'length'),
    '--rise',
    anyValue(random, 'length'),
  ];
}
