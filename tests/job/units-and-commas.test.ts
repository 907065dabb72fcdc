import { expect, test } from 'vitest';
import { faultsOf } from './faults-of.ts';

const job = (units: string, end = '[30, 0]'): string =>
  `part: Rail\nunits: ${units}\nedges:\n  a:\n    - from: [0, 0]\n    - line: ${end}\n`;

test.each([
  ['inch', /Write in\.$/],
  ['Millimeters', /Write mm\.$/],
  ['cm', /inches \(in\) or millimetres \(mm\).*as 2 cm\.$/],
  ['furlongs', /Known here: in, mm\.$/],
])('the unit %s is told with the one to write, never with one ten times as small', (unit, cure) => {
  const [fault, ...more] = faultsOf(job(unit));
  expect(more).toEqual([]);
  expect(fault).toMatchObject({ code: 'job.unknown-word', message: expect.stringMatching(cure) });
  expect(fault!.message).not.toContain('Did you mean');
});

test('a decimal comma in a point is told as one', () => {
  const [fault] = faultsOf(job('in', '[40,5, 0]'));
  expect(fault).toMatchObject({
    code: 'job.point',
    message: expect.stringMatching(/write a decimal with a point, as 40\.5/),
  });
});
