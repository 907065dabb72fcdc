import { expect, test } from 'vitest';
import { COMMANDS } from '../../src/cli/commands.ts';
import { fairlath, folderWithSamples, freshFolder, LEG, MEASURED } from '../cli/run.ts';
import { pageNamed } from './pages.ts';

/** The keys that every answer has, told apart from those of each command. */
const FRAME = ['command', 'part', 'units', 'warnings'];
const WIDTH = '10';

/** Command lines that together give every key of an answer, by the name of the row. */
const LINES: Readonly<Record<string, readonly (readonly string[])[]>> = {
  show: [
    ['show', LEG],
    ['show', 'samples/hall-bench/leg.yaml'],
  ],
  offsets: [
    ['offsets', LEG],
    ['offsets', 'samples/hall-bench/leg.yaml'],
  ],
  print: [
    ['print', LEG, '-o', 'leg.pdf'],
    ['print', LEG, '-o', 'stick.pdf', '--story-stick'],
    ['print', LEG, '-o', 'template.pdf', '--template', '--bush', '5/8', '--bit', '1/2'],
    ['print', LEG, '-o', 'form.pdf', '--form', '--edge', 'back', '--plies', '6'],
  ],
  draw: [
    ['draw', LEG, '-o', 'leg.dxf'],
    ['draw', LEG, '-o', 'board.dxf', '--nest', '--board-width', WIDTH],
  ],
  batten: [['batten', LEG]],
  stock: [['stock', LEG]],
  saw: [['saw', LEG]],
  card: [['card', LEG, '-o', 'card.pdf']],
  check: [['check', LEG, '--edge', 'back', '--measured', MEASURED]],
  'take-off': [['take-off', MEASURED, '-o', 'taken.yaml']],
  new: [['new', 'new.yaml']],
  'printer sheet': [['printer', 'sheet', '-o', 'sheet.pdf']],
  'printer set': [['printer', 'set', 'shop', '--across', '199.4mm', '--down', '200.6mm']],
  'printer list': [['printer', 'list']],
};

const rows = new Map(
  [...pageNamed('json.md').text.matchAll(/^\| `([a-z -]+)` \| (.*) \|$/gm)].map(
    ([, name = '', keys = '']) => [name, [...keys.matchAll(/`([A-Za-z]+)`/g)].map(([, key]) => key ?? '')],
  ),
);

test('every command has a row', () => {
  const named = [...rows.keys()].map((name) => name.split(' ')[0] ?? '');
  for (const command of Object.keys(COMMANDS)) expect(named).toContain(command);
});

test.each(Object.entries(LINES))('the row of %s has every key of the answer', (name, lines) => {
  const { path } = folderWithSamples();
  const settings = freshFolder();
  for (const line of lines) {
    const { out } = fairlath([...line, '--json'], path, settings);
    const keys = Object.keys(JSON.parse(out) as object).filter((key) => !FRAME.includes(key));
    expect(rows.get(name), line.join(' ')).toEqual(expect.arrayContaining(keys));
  }
});
