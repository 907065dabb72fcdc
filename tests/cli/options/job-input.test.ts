import { expect, test } from 'vitest';
import { fairlath, folderWith, LEG } from '../run.ts';
import { expectMistake } from '../words.ts';

const show = (job: string) => fairlath(['show', 'rail.yaml'], folderWith({ 'rail.yaml': job }));

test('names every fault of a job file at its line and column', () => {
  const { code, err, faults } = show(
    [
      'part: Garden arch rail',
      'units: in',
      'quantty: 2',
      'stock:',
      '  width: 3/0',
      'edges:',
      '  lower:',
      '    - from: [0, 0]',
      '    - battn: [34, 0]',
      '',
    ].join('\n'),
  );
  expect(code).toBe(2);
  expect(faults.map(({ key }) => key)).toEqual(['quantty', 'stock.width', 'edges.lower[1].battn']);
  expect(err.match(/^rail\.yaml:\d+:\d+/gm)).toEqual(['rail.yaml:3:1', 'rail.yaml:5:10', 'rail.yaml:9:7']);
});

test('names a fault that only the geometry shows at its line, with lengths in the unit of the job', () => {
  const { err, faults } = show(
    'part: Rail\nunits: in\nstock:\n  width: 2\nedges:\n  a:\n    - from: [0, 0]\n    - batten: [30, 0]\n      through: [15, 4]\n',
  );
  expect(faults).toEqual([{ code: 'stock.too-narrow', key: 'stock.width' }]);
  expect(err).toMatch(/^rail\.yaml:4:10: stock\.width: .*\b4".*\b2"/);
});

test.each<[string, string, string, string]>([
  ['print', '--overlap', 'wide', 'length.not-a-number'],
  ['print', '--overlap', '1 mm', 'layout.overlap'],
  ['print', '--max-sheets', '3', 'layout.too-many-sheets'],
  ['draw', '--only', 'board', 'draw.nothing'],
])('the mistake of %s %s %s is not blamed on the job file', (command, option, value, code) => {
  const args = [command, LEG, option, value];
  expectMistake([args, code, option]);
  expect(fairlath(args).err).toMatch(new RegExp(`^error: ${option}: `));
});
