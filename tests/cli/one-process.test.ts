import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { type Answer, fairlath, fairlathAlone, freshFolder, root } from './run.ts';

const leg = join(root, 'samples/hall-bench/leg.yaml');
const measured = join(root, 'samples/hall-bench-leg-measured.csv');
const printedLines = ['--across', '199.4mm', '--down', '200.6mm'];

/** Every command, what each says when it is refused, and settings that one command leaves for the next. */
const ONE_AFTER_ANOTHER: readonly (readonly string[])[] = [
  ['--version'],
  ['shwo', leg],
  ['new', 'own.yaml'],
  ['new', 'own.yaml'],
  ['show', 'own.yaml'],
  ['show', '--curve', 'batten', '--chord', '28', '--rise', '25'],
  ['show', 'nowhere.yaml'],
  ['printer', 'set', 'shop', ...printedLines],
  ['print', leg, '--printer', 'shop', '-o', 'leg.pdf'],
  ['print', leg, '--paper', 'leter', '-o', 'none.pdf'],
  ['draw', leg, '-o', 'leg.dxf'],
  ['offsets', leg, '--every', '2', '--csv'],
  ['batten', leg, '--json'],
  ['stock', leg],
  ['saw', leg, '--json'],
  ['card', leg, '-o', 'card.pdf'],
  ['check', 'own.yaml', '--edge', 'back', '--readings', measured],
  ['take-off', measured, '-o', 'taken.yaml'],
  ['page', '--port', '80'],
  ['printer', 'list'],
  ['stock', '--help'],
];

/** The answer of every command, and the files in the folder afterwards. */
function session(run: (args: readonly string[], cwd: string, settings: string) => Answer) {
  const folder = freshFolder();
  const answers = ONE_AFTER_ANOTHER.map((args) => {
    const { code, out, err } = run(args, folder, folder);
    return { args, code, out: out.replaceAll(folder, 'HERE'), err: err.replaceAll(folder, 'HERE') };
  });
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.includes('.'))
    .map((name) => [name, readFileSync(join(folder, name), 'latin1')]);
  return { answers, files: Object.fromEntries(files) };
}

test('the process that stays answers, exits and writes byte for byte as one that starts for each command', () => {
  const alone = session(fairlathAlone);
  expect(session(fairlath)).toEqual(alone);
  expect(session(fairlath), 'once more, after all of them').toEqual(alone);
  expect(new Set(alone.answers.map(({ code }) => code))).toEqual(new Set([0, 2]));
  expect(Object.keys(alone.files).toSorted()).toEqual([
    'card.pdf',
    'fairlath/printers.yaml',
    'leg.dxf',
    'leg.pdf',
    'own.yaml',
    'taken.yaml',
  ]);
});
