import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { insertNail, removeNail } from '../../../src/job/edit/edit-nails.ts';
import { parseJob } from '../../../src/job/parse/parse-job.ts';
import { sampleText } from '../../part/jobs.ts';
import { drawnEdge } from '../drawn-edge.ts';

const KEY = 'edges.top[1].through';

/** A job with its nails written as given, six blanks in. */
function jobWith(nails: string, kind = 'batten'): string {
  const text = `part: P\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n    - ${kind}: [900, 0]\n      ${nails}\n`;
  return nails.includes('\r') ? text.replaceAll(/\r?\n/g, '\r\n') : text;
}

function stations(text: string): number[] {
  const [step] = drawnEdge(parseJob(text).job.edges[0]).steps;
  if (step.kind === 'spline') return step.through.map(({ x }) => x);
  return step.kind === 'batten' && 'through' in step.by ? step.by.through.map(({ x }) => x) : [];
}

const remarks = (text: string): string[] => [...text.matchAll(/#.*/g)].map(([remark]) => remark.trim());

/** Two nails at 300 and 600, in every form that people write a list of them. */
const FORMS: Readonly<Record<string, string>> = {
  'on one line': 'through: [[300, 40], [600, 45]]   # both',
  'on one line, with white of its own': 'through: [ [ 300,40 ],[ 600,45 ] ]',
  'over lines, in brackets':
    'through: [  # nails\n        [300, 40],  # first\n        # over a tenon\n        [600, 45]   # second\n      ]',
  'over lines, a comma behind each':
    'through: [\n        [300, 40],\n        [600, 45],  # second\n      ]  # end',
  'over lines, a comma before each':
    'through: [[300, 40]  # first, of two\n        , [600, 45]  # second\n      ]',
  'over lines, closed at the last': 'through: [[300, 40],\n                [600, 45]]  # end',
  'with dashes':
    'through:  # nails\n        - [300, 40]  # first\n        # over a tenon\n        - [600, 45]  # second',
  'with dashes as far in as their name': 'through:\n      - [300, 40]\n      - [600, 45]',
  'with dashes in dashes':
    'through:\n        - - 300\n          - 40  # off\n        - - 600  # along\n          - 45  # off',
  'with the ends of lines of another system': 'through:\r\n        - [300, 40]\r\n        - [600, 45]',
};

describe('insertNail', () => {
  test.each(Object.entries(FORMS))('%s: the nail is in order and every comment is kept', (_form, nails) => {
    const text = jobWith(nails);
    for (const [index, station, all] of [
      [0, '100', [100, 300, 600]],
      [1, '450', [300, 450, 600]],
      [2, '700', [300, 600, 700]],
    ] as const) {
      const set = insertNail(text, KEY, index, [station, '41.5']);
      expect(stations(set)).toEqual(all);
      expect(remarks(set)).toEqual(remarks(text));
    }
  });

  test.each(Object.entries(FORMS))(
    '%s, leaves the text as it was once it is taken out again',
    (_form, nails) => {
      const text = jobWith(nails);
      for (const index of [0, 1, 2]) {
        const set = insertNail(text, KEY, index, [['100', '450', '700'][index]!, '41.5']);
        const back = removeNail(set, KEY, index);
        // A remark that was pushed on does not come back to its column.
        expect(back.replaceAll(/ +#/g, ' #')).toBe(text.replaceAll(/ +#/g, ' #'));
      }
    },
  );

  test('beside a single nail makes a list on the same line', () => {
    const leg = sampleText('hall-bench-leg.yaml');
    const set = insertNail(leg, 'edges.back[1].through', 1, ['20 1/2', '3 3/16']);
    expect(set).toBe(leg.replace('[12, 3 1/4]   ', '[[12, 3 1/4], [20 1/2, 3 3/16]]'));
  });

  test('beside a single nail with dashes keeps the dashes', () => {
    const text = jobWith('through:\n        - 300  # along\n        - 40  # off');
    expect(insertNail(text, KEY, 1, ['600', '45'])).toBe(
      jobWith('through:\n        - - 300  # along\n          - 40  # off\n        - [600, 45]'),
    );
  });

  test('goes above the comments of the next nail', () => {
    expect(insertNail(jobWith(FORMS['with dashes']!), KEY, 1, ['450', '44'])).toContain(
      '# first\n        - [450, 44]\n        # over a tenon\n        - [600, 45]',
    );
  });

  test('has the same spaces in its brackets as the others', () => {
    const nails = FORMS['on one line, with white of its own']!;
    expect(insertNail(jobWith(nails), KEY, 1, ['450', '44'])).toBe(
      jobWith('through: [ [ 300,40 ],[ 450,44 ],[ 600,45 ] ]'),
    );
  });

  test('works on a last line without a line end', () => {
    const text = jobWith(FORMS['with dashes as far in as their name']!).trimEnd();
    expect(insertNail(text, KEY, 2, ['700', '30'])).toBe(`${text}\n      - [700, 30]`);
  });

  test('adds a point to a spline', () => {
    const text = jobWith('through: [[300, 40], [600, 45]]', 'spline');
    expect(stations(insertNail(text, KEY, 1, ['450', '44']))).toEqual([300, 450, 600]);
  });

  test('throws where the job has no list of nails', () => {
    expect(() => insertNail(jobWith('apex: [450, 40]'), 'edges.top[1].apex[0]', 0, ['1', '1'])).toThrow(
      'no nails',
    );
    expect(() => insertNail(jobWith('apex: [450, 40]'), KEY, 0, ['1', '1'])).toThrow('no nails');
  });
});

describe('removeNail', () => {
  test.each(Object.entries(FORMS))('%s: the nail is gone and every comment is kept', (_form, nails) => {
    const text = jobWith(nails);
    expect(stations(removeNail(text, KEY, 0))).toEqual([600]);
    expect(stations(removeNail(text, KEY, 1))).toEqual([300]);
    for (const index of [0, 1]) expect(remarks(removeNail(text, KEY, index))).toEqual(remarks(text));
  });

  test('removes the line of the nail', () => {
    expect(removeNail(jobWith(FORMS['with dashes as far in as their name']!), KEY, 0)).toBe(
      jobWith('through:\n      - [600, 45]'),
    );
  });

  test('keeps a comment on its own line', () => {
    expect(removeNail(jobWith(FORMS['with dashes']!), KEY, 0)).toBe(
      jobWith('through:  # nails\n        # first\n        # over a tenon\n        - [600, 45]  # second'),
    );
  });

  test('refuses to remove the only nail', () => {
    for (const nails of ['through: [300, 40]', 'through: [[300, 40]]', 'through:\n        - [300, 40]'])
      expect(() => removeNail(jobWith(nails), KEY, 0)).toThrow('Add another one');
  });
});

test('property: the job has the nails that are left after any inserts and removals', () => {
  const move = fc.record({ out: fc.boolean(), station: fc.integer({ min: 1, max: 899 }), where: fc.nat(20) });
  fc.assert(
    fc.property(
      fc.constantFrom(...Object.values(FORMS)),
      fc.array(move, { maxLength: 12 }),
      (nails, moves) => {
        let text = jobWith(nails);
        let model = [300, 600];
        for (const { out, station, where } of moves) {
          if (out && model.length > 1) {
            const index = where % model.length;
            text = removeNail(text, KEY, index);
            model = model.toSpliced(index, 1);
          } else if (!out && !model.includes(station)) {
            const index = model.filter((x) => x < station).length;
            text = insertNail(text, KEY, index, [String(station), '40']);
            model = model.toSpliced(index, 0, station);
          }
          expect(stations(text)).toEqual(model);
        }
        expect(remarks(text)).toEqual(remarks(jobWith(nails)));
      },
    ),
    { numRuns: 60 },
  );
});
