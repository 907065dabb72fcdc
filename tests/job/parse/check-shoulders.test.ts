import { describe, expect, test } from 'vitest';
import { parseJob } from '../../../src/job/parse/parse-job.ts';
import { drawnEdge } from '../drawn-edge.ts';
import { faultsOf } from '../faults-of.ts';

/** An edge by its steps, the first of them on line 5. */
const edge = (...steps: string[]): string =>
  `part: P\nunits: in\nedges:\n  top:\n${steps.map((step) => `    - ${step}\n`).join('')}`;

test('a line can be a shoulder, up or down, in either unit', () => {
  const { job } = parseJob(edge('from: [0, 3]', 'line: [8, 3]', 'line: [20.32 cm, 2]', 'line: [12, 2 1/2]'));
  const [, shoulder, after] = drawnEdge(job.edges[0]).steps;
  expect([shoulder?.kind, shoulder?.to.x, shoulder?.to.y]).toEqual([
    'line',
    drawnEdge(job.edges[0]).steps[0].to.x,
    50.8,
  ]);
  expect(after?.to.x).toBe(304.8);
});

describe('a shoulder in a wrong place is a fault with a remedy', () => {
  test.each<
    [what: string, steps: string[], code: string, key: string, place: [number, number], cure: string]
  >([
    [
      'at the start of the edge',
      ['from: [0, 3]', 'line: [0 mm, 2]', 'line: [12, 2]'],
      'job.shoulder',
      'edges.top[1].line',
      [6, 13],
      'start the edge at [0 mm, 2]',
    ],
    [
      'at the end of the edge',
      ['from: [0, 3]', 'line: [12, 3]', 'line: [12, 2]'],
      'job.shoulder',
      'edges.top[2].line',
      [7, 13],
      'the edge ends at [12, 3]',
    ],
    [
      'where there is one already',
      ['from: [0, 3]', 'line: [5, 3]', 'line: [5, 2]', 'line: [5, 1]', 'line: [12, 1]'],
      'job.shoulder',
      'edges.top[3].line',
      [8, 13],
      '"line: [5, 1]"',
    ],
    [
      'back over itself',
      ['from: [0, 3]', 'line: [5, 3]', 'line: [5, 2]', 'line: [5, 3]', 'line: [12, 1]'],
      'job.shoulder',
      'edges.top[3].line',
      [8, 13],
      'two shoulders at station 5',
    ],
    [
      'of no height',
      ['from: [0, 3]', 'line: [5, 3]', 'line: [5, 3]', 'line: [12, 1]'],
      'job.same-point',
      'edges.top[2].line',
      [7, 13],
      'Move one of them',
    ],
    [
      'that goes back by a thousandth',
      ['from: [0, 3]', 'line: [5, 3]', 'line: [4.999, 2]', 'line: [12, 1]'],
      'job.backwards',
      'edges.top[2].line',
      [7, 13],
      'Make each station larger',
    ],
    ...[
      'arc: [5, 2]\n      rise: 1',
      'batten: [5, 2]\n      through: [4, 1]',
      'bow: [5, 2]\n      rise: 1',
    ].map((step): [string, string[], string, string, [number, number], string] => {
      const kind = step.split(':')[0]!;
      return [
        `made of a ${kind}`,
        ['from: [0, 3]', 'line: [5, 3]', step, 'line: [12, 1]'],
        'job.backwards',
        `edges.top[2].${kind}`,
        [7, 9 + kind.length],
        '"line: [5, 2]"',
      ];
    }),
  ])('%s', (_, steps, code, key, [line, column], cure) => {
    const found = faultsOf(edge(...steps));
    expect(found).toMatchObject([{ code, key, line, column }]);
    expect(found[0]?.message).toContain(cure);
  });
});
