import { expect, test } from 'vitest';
import { faultsOf } from './faults-of.ts';

const job = (units: string, end = '[30, 0]'): string =>
  `part: Rail\nunits: ${units}\nedges:\n  a:\n    - from: [0, 0]\n    - line: ${end}\n`;

test.each([
  ['inch', 'in'],
  ['Millimeters', 'mm'],
  ['cm', 'cm'],
  ['furlongs', 'in, mm'],
])('the unit %s is refused with what to write, never with a unit ten times as small', (unit, cure) => {
  const [fault, ...more] = faultsOf(job(unit));
  expect(more).toEqual([]);
  expect(fault).toMatchObject({ code: 'job.unknown-word', key: 'units' });
  expect(fault!.message.endsWith(` ${cure}.`)).toBe(true);
});

test('a decimal comma in a point is told as one', () => {
  const [fault] = faultsOf(job('in', '[40,5, 0]'));
  expect(fault).toMatchObject({ code: 'job.point', message: expect.stringContaining('40.5') });
});
