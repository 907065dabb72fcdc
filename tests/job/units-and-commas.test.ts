import { expect, test } from 'vitest';
import { faultsOf } from './faults-of.ts';

const job = (units: string, end = '[30, 0]'): string =>
  `part: Rail\nunits: ${units}\nedges:\n  a:\n    - from: [0, 0]\n    - line: ${end}\n`;

test.each([
  ['inch', 'in'],
  ['Millimeters', 'mm'],
  ['cm', 'cm'],
  ['furlongs', 'in, mm'],
])('the unit %s is refused without the suggestion of a smaller unit', (unit, cure) => {
  const [fault, ...more] = faultsOf(job(unit));
  expect(more).toEqual([]);
  expect(fault).toMatchObject({ code: 'job.unknown-word', key: 'units' });
  expect(fault!.message.endsWith(` ${cure}.`)).toBe(true);
});

test('a decimal comma in a point is reported', () => {
  const [fault] = faultsOf(job('in', '[40,5, 0]'));
  expect(fault).toMatchObject({ code: 'job.point', message: expect.stringContaining('40.5') });
});
