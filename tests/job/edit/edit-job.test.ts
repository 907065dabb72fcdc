import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { editJob, withJobUnit } from '../../../src/job/edit/edit-job.ts';
import { parseJob } from '../../../src/job/parse/parse-job.ts';
import { parseLength } from '../../../src/units/parse-length.ts';
import { defaultRule, readOnRule } from '../../../src/units/rule.ts';
import { sampleText } from '../../part/jobs.ts';
import { drawnEdge } from '../drawn-edge.ts';

const leg = sampleText('hall-bench-leg.yaml');
const NAIL = 'edges.back[1].through';

/** The lines of a text that are not the same in another. */
const changed = (before: string, after: string): string[] => {
  const old = before.split('\n');
  return after.split('\n').filter((line, i) => line !== old[i]);
};

describe('editJob of a length', () => {
  test('replaces the old length and moves nothing else', () => {
    const edited = editJob(leg, [{ key: `${NAIL}[1]`, typed: '3 3/8' }]);
    expect(changed(leg, edited)).toEqual([
      '      through: [12, 3 3/8]    # the nail; the apex is elsewhere, see "fairlath show"',
    ]);
  });

  test('keeps the comment after it in its column', () => {
    const edited = editJob(leg, [
      { key: `${NAIL}[0]`, typed: '9' },
      { key: `${NAIL}[1]`, typed: '3 11/32' },
    ]);
    expect(changed(leg, edited)).toEqual([
      '      through: [9, 3 11/32]   # the nail; the apex is elsewhere, see "fairlath show"',
    ]);
  });

  test('moves the comment when there is no room', () => {
    const text = 'part: P\nunits: in\nedges:\n  a:\n    - from: [0, 0] # start\n    - line: [3, 0]\n';
    expect(editJob(text, [{ key: 'edges.a[0].from[0]', typed: '10 31/32' }])).toContain(
      '[10 31/32, 0] # start',
    );
  });

  test('writes several lengths in their own places', () => {
    const edited = editJob(leg, [
      { key: 'edges.back[1].batten[0]', typed: '35 1/2' },
      { key: 'edges.front[1].line[0]', typed: '35 1/2' },
      { key: 'allowance.saw', typed: '1/8' },
    ]);
    const { job } = parseJob(edited);
    expect(job.edges.map((edge) => drawnEdge(edge).steps.at(-1)!.to.x)).toEqual([901.7, 901.7]);
    expect(job.sawAllowance).toBe(3.175);
  });

  test('counts a single point as the first of a list', () => {
    const edited = editJob(leg, [{ key: `${NAIL}[0][0]`, typed: '13' }]);
    expect(edited).toBe(editJob(leg, [{ key: `${NAIL}[0]`, typed: '13' }]));
  });

  test('writes a point in a list with one point per line', () => {
    const text = [
      'part: P',
      'units: mm',
      'edges:',
      '  a:',
      '    - from: [0, 0]',
      '    - batten: [900, 0]',
      '      through:',
      '        - [300, 40]  # first',
      '        - - 600',
      '          - 45',
      '',
    ].join('\r\n');
    const edited = editJob(text, [
      { key: 'edges.a[1].through[0][0]', typed: '310' },
      { key: 'edges.a[1].through[1][1]', typed: '50.5' },
    ]);
    expect(edited).toBe(text.replace('300', '310').replace('- 45', '- 50.5'));
  });

  test.each(['3"', `2' 4 1/2"`, '½', '12 ½', '28-3/4"', '+3', '-3/4', '.75', '1 1/2 in.', ' 4 '])(
    'typed as %s, is read as typed',
    (typed) => {
      const { job } = parseJob(editJob(leg, [{ key: `${NAIL}[1]`, typed }]));
      expect(drawnEdge(job.edges[1]).steps[0]).toMatchObject({
        by: { through: [{ y: parseLength(typed, 'in') }] },
      });
    },
  );

  test('writes a value in quotes, in a file with a byte order mark', () => {
    const text = `\uFEFF${leg.replace('3 1/4]', `"3 1/4"]`)}`;
    const edited = editJob(text, [{ key: `${NAIL}[1]`, typed: '3 5/16' }]);
    expect(edited).toBe(text.replace('"3 1/4"]    #', '3 5/16]     #'));
  });

  test('throws for a key that the job does not have', () => {
    expect(() => editJob(leg, [{ key: 'edges.back[7].apex[0]', typed: '1' }])).toThrow('no value');
    expect(() => editJob(leg, [{ key: 'stock', typed: '1' }])).toThrow('no value');
  });

  test('property: an edit parses to the mark, and the reverse edit restores the text', () => {
    const rule = defaultRule('in');
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 33 * 32 }), fc.integer({ min: 1, max: 200 }), (x, y) => {
        const marks = [x, y].map((count) => readOnRule((count * 25.4) / 32, rule));
        const edited = editJob(
          leg,
          marks.map(({ text }, i) => ({ key: `${NAIL}[${i}]`, typed: text })),
        );
        const by = drawnEdge(parseJob(edited).job.edges[1]).steps[0];
        expect(by).toMatchObject({ by: { through: [{ x: marks[0]!.mark, y: marks[1]!.mark }] } });
        const back = editJob(edited, [
          { key: `${NAIL}[0]`, typed: '12' },
          { key: `${NAIL}[1]`, typed: '3 1/4' },
        ]);
        expect(back.replaceAll(/ +#/g, ' #')).toBe(leg.replaceAll(/ +#/g, ' #'));
      }),
    );
  });
});

describe('a length typed in the unit on the screen', () => {
  test.each([
    ['45', 'mm', 'in', '45 mm'],
    ['1 3/4', 'in', 'mm', '1 3/4 in'],
    ['45 mm', 'in', 'in', '45 mm'],
    [' 1 3/4 ', 'in', 'in', '1 3/4'],
    [`2' 4"`, 'mm', 'in', `2' 4"`],
    ['0', 'mm', 'in', '0'],
  ] as const)('%s, typed in %s for a job in %s, is written as %s', (typed, typedIn, job, written) => {
    expect(withJobUnit(typed, typedIn, job)).toBe(written);
  });
});
