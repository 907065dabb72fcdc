import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { DrawnEdge, Edge } from '../../../src/job/job.ts';
import { findPosition } from '../../../src/job/job-faults.ts';
import { parseJob } from '../../../src/job/parse/parse-job.ts';
import { STARTER_JOB } from '../../../src/job/starter-job.ts';
import { makePart } from '../../../src/part/make-part.ts';
import { drawnEdge } from '../drawn-edge.ts';
import { faultsOf } from '../faults-of.ts';

const BACK_LEG = `part: Back leg                    # hall bench
units: in                         # in | mm
graduation: 1/32                  # finest mark on your rule
quantity: 2

stock:
  species: white oak
  length: 36
  width: 4
  thickness: 1 3/4
  layers: 1

edges:
  front:
    - from: [0, 0]
    - line: [34, 0]
  back:
    - from: [0, 3]
    - line: [8, 3]
    - batten: [34, 1 3/4]
      apex: [18, 3 1/2]

allowance:
  saw: 1/16
`;

/** An inch is 25.4 mm exactly; whole tenths first, so that the division rounds once. */
const inches = (count: number): number => (count * 254) / 10;

test('parseJob reads the back leg of a hall bench', () => {
  const { job } = parseJob(BACK_LEG);
  expect(job).toEqual({
    part: 'Back leg',
    rule: { unit: 'in', graduation: { numerator: 1, denominator: 32 } },
    quantity: 2,
    stock: { species: 'white oak', length: inches(36), width: inches(4), thickness: inches(1.75), layers: 1 },
    edges: [
      {
        name: 'front',
        key: 'edges.front',
        from: { x: 0, y: 0 },
        steps: [{ kind: 'line', to: { x: inches(34), y: 0 }, key: 'edges.front[1]' }],
      },
      {
        name: 'back',
        key: 'edges.back',
        from: { x: 0, y: inches(3) },
        steps: [
          { kind: 'line', to: { x: inches(8), y: inches(3) }, key: 'edges.back[1]' },
          {
            kind: 'batten',
            to: { x: inches(34), y: inches(1.75) },
            by: { apex: { x: inches(18), y: inches(3.5) } },
            ends: ['free', 'free'],
            key: 'edges.back[2]',
          },
        ],
      },
    ],
    joints: [],
    sawAllowance: inches(1 / 16),
  });
});

test('a missing key has the position of the key around it', () => {
  const { places } = parseJob(BACK_LEG);
  expect(places.get('stock.width')).toEqual({ line: 9, column: 10 });
  expect(places.get('edges.back')).toEqual({ line: 17, column: 3 });
  expect(places.get('edges.back[2]')).toEqual({ line: 20, column: 7 });
  expect(places.get('edges.back[2].apex')).toEqual({ line: 21, column: 13 });
  expect(places.get('edges.back[2].apex[1]')).toEqual({ line: 21, column: 18 });
  expect(findPosition(places, 'edges.back[2].rise')).toEqual({ line: 20, column: 7 });
  expect(findPosition(places, 'edges.back[7].apex[0]')).toEqual({ line: 17, column: 3 });
  expect(findPosition(places, 'pair')).toEqual({ line: 1, column: 1 });
});

test('omitted keys have their defaults', () => {
  const { job } = parseJob('part: Strip\nunits: mm\nedges: {a: [{from: [0, 0]}, {line: [9, 0]}]}');
  expect(job).toMatchObject({ quantity: 1, sawAllowance: 0, rule: { unit: 'mm' } });
  expect(job).not.toHaveProperty('stock');
  expect(job).not.toHaveProperty('notes');
  expect(parseJob(`${BACK_LEG}notes: |\n  Two lines\n  of notes\n`).job.notes).toBe('Two lines\nof notes');
});

const stepsOf = (steps: string, units = 'in'): DrawnEdge['steps'] =>
  drawnEdge(parseJob(`part: Try\nunits: ${units}\nedges:\n  a:\n    - from: [0, 0]\n${steps}`).job.edges[0])
    .steps;

const NAILED = { through: [{ x: 12, y: 2 }] };

describe('the steps of an edge', () => {
  test.each([
    ['arc: [20, 0]\n      rise: -2', { kind: 'arc', by: { rise: -2 } }],
    ['arc: [20, 0]\n      radius: 30', { kind: 'arc', by: { radius: 30 } }],
    ['arc: [20, 0]\n      through: [5, 1]', { kind: 'arc', by: { through: { x: 5, y: 1 } } }],
    ['batten: [20, 0]\n      through: [[12, 2]]', { kind: 'batten', by: { through: [{ x: 12, y: 2 }] } }],
    ['batten: [20, 0]\n      through: [12, 2]', { kind: 'batten', by: { through: [{ x: 12, y: 2 }] } }],
    [
      'batten: [20, 0]\n      through:\n        - [12, 2]',
      { kind: 'batten', by: { through: [{ x: 12, y: 2 }] } },
    ],
    [
      'spline: [20, 0]\n      through: [[6, 1], [9, 2]]\n      ends: [natural, held]',
      {
        kind: 'spline',
        through: [
          { x: 6, y: 1 },
          { x: 9, y: 2 },
        ],
        ends: ['free', 'held'],
      },
    ],
    ['spline: [20, 0]\n      through: [6, 1]\n      ends: held', { ends: ['held', 'held'] }],
    ['spline: [20, 0]\n      through: [6, 1]', { ends: ['free', 'free'] }],
  ])('- %s', (step, expected) => {
    expect(stepsOf(`    - ${step}\n`, 'mm')[0]).toMatchObject(expected);
  });

  test.each<[string, object]>([
    ['apex: [12, 2]', { by: { apex: { x: 12, y: 2 } } }],
    [
      'through: [[6, 1], [9, 2], [14, 1.5]]',
      {
        by: {
          through: [
            { x: 6, y: 1 },
            { x: 9, y: 2 },
            { x: 14, y: 1.5 },
          ],
        },
      },
    ],
    ['through: [12, 2]\n      ends: held', { by: NAILED, ends: ['held', 'held'] }],
    ['through: [12, 2]\n      ends: [held, free]', { by: NAILED, ends: ['held', 'free'] }],
    ['apex: [12, 2]\n      ends: [free, held]', { by: { apex: { x: 12, y: 2 } }, ends: ['free', 'held'] }],
    ['through: [12, 2]\n      strip: {from: 1/4 in, to: 3}', { by: NAILED, strip: { from: 6.35, to: 3 } }],
    [
      'through: [12, 2]\n      strip:\n        from: 3\n        to: 3',
      { by: NAILED, strip: { from: 3, to: 3 } },
    ],
  ])('a batten %s is read as typed, with free ends by default', (rest, expected) => {
    expect(stepsOf(`    - batten: [20, 0]\n      ${rest}\n`, 'mm')).toEqual([
      { kind: 'batten', key: 'edges.a[1]', to: { x: 20, y: 0 }, ends: ['free', 'free'], ...expected },
    ]);
  });

  test.each(['bow', 'ellipse'] as const)('a %s has its end and its rise, positive or negative', (kind) => {
    for (const rise of [4, -4])
      expect(stepsOf(`    - ${kind}: [20, 1]\n      rise: ${rise}\n`, 'mm')).toEqual([
        { kind, key: 'edges.a[1]', to: { x: 20, y: 1 }, rise },
      ]);
  });

  test.each([
    ['28 3/4', inches(28.75)],
    ['28-3/4"', inches(28.75)],
    ['"28-3/4\\""', inches(28.75)],
    [`2' 4 1/2"`, inches(28.5)],
    ['730 mm', 730],
    ['73 cm', 730],
    ['28.75 in', inches(28.75)],
    ['.75', inches(0.75)],
  ])('a length is read as typed: %s', (typed, mm) => {
    expect(stepsOf(`    - line: [${typed}, 0]\n`)[0].to.x).toBeCloseTo(mm, 9);
  });

  test.each(['0x10', '0o17', 'true', '.inf', '.nan', '~', '2001-01-01'])('%s is not a length', (typed) => {
    const job = `part: Try\nunits: in\nstock:\n  width: ${typed}\nedges: {a: [{from: [0, 0]}, {line: [9, 0]}]}`;
    expect(faultsOf(job)).toMatchObject([{ key: 'stock.width', line: 4, column: 10 }]);
  });
});

type Sixteenths = readonly [station: number, offset: number];

/** Points given in sixteenths of an inch, of rising stations. */
const rising = (minLength: number): fc.Arbitrary<Sixteenths[]> =>
  fc
    .uniqueArray(fc.tuple(fc.nat(3200), fc.integer({ min: -400, max: 400 })), {
      minLength,
      maxLength: 8,
      selector: ([x]) => x,
    })
    .map((points) => points.toSorted(([a], [b]) => a - b));

const asInches = (n: number): string => `${n}/16`;
// 1/16 in is 1.5875 mm exactly.
const asMm = (n: number): string => ((n * 15_875) / 10_000).toFixed(4);

function jobOf(units: string, steps: string, show: (n: number) => string): string {
  return `part: A\nunits: ${units}\nedges:\n  a:\n    - from: [${show(-16)}, ${show(5)}]\n${steps}`;
}

/** The edges of the same job written in inches and in millimetres. */
function bothUnits(steps: (show: (n: number) => string) => string): [Edge, Edge] {
  const [inch, mm] = [jobOf('in', steps(asInches), asInches), jobOf('mm', steps(asMm), asMm)];
  return [parseJob(inch).job.edges[0], parseJob(mm).job.edges[0]];
}

test('property: a job in inches and in millimeters gives the same edges', () => {
  fc.assert(
    fc.property(rising(1), (points) => {
      const [inch, mm] = bothUnits((show) =>
        points.map(([x, y]) => `    - line: [${show(x)}, ${show(y)}]\n`).join(''),
      );
      expect(inch).toEqual(mm);
    }),
    { numRuns: 100 },
  );
});

const anyEnds = fc.constantFrom('free', 'held', '[held, free]', '[free, held]');

test('property: a batten over nails in inches and in millimeters is the same', () => {
  const thickness = fc.integer({ min: 1, max: 8 });
  fc.assert(
    fc.property(rising(2), anyEnds, thickness, thickness, (points, ends, thick, thin) => {
      const [inch, mm] = bothUnits((show) => {
        const pins = points.map(([x, y]) => `[${show(x)}, ${show(y)}]`);
        return (
          `    - batten: ${pins.at(-1)}\n      through: [${pins.slice(0, -1).join(', ')}]\n` +
          `      ends: ${ends}\n      strip: {from: ${show(thick)}, to: ${show(thin)}}\n`
        );
      });
      expect(inch).toEqual(mm);
      const [batten] = drawnEdge(inch).steps;
      expect(batten.kind === 'batten' && 'through' in batten.by && batten.by.through).toHaveLength(
        points.length - 1,
      );
    }),
    { numRuns: 100 },
  );
});

test('line ends and a byte order mark make no difference', () => {
  const plain = parseJob(BACK_LEG);
  const windows = parseJob(`\uFEFF${BACK_LEG.replaceAll('\n', '\r\n')}`);
  expect(windows.job).toEqual(plain.job);
  expect(windows.places).toEqual(plain.places);
});

describe('the starter job', () => {
  test('is a closed part that fits its stock', () => {
    const { job } = parseJob(STARTER_JOB);
    expect(job.edges).toHaveLength(2);
    expect(job.sawAllowance).toBeCloseTo(inches(1 / 16), 12);
    const [top, bottom] = job.edges.map(drawnEdge) as [DrawnEdge, DrawnEdge];
    const height = top.from.y - bottom.from.y;
    expect(height + 2 * job.sawAllowance).toBeLessThan(job.stock?.width ?? 0);
    expect(top.steps.at(-1)?.to.x).toBeLessThan(job.stock?.length ?? 0);
    expect(top.steps.at(-1)?.to.x).toBe(bottom.steps.at(-1)?.to.x);
  });

  test('has no line that is too long to read', () => {
    for (const line of STARTER_JOB.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
  });

  const [shown, others] = STARTER_JOB.split('    # Other steps:\n') as [string, string];
  const WITH_NAIL = /through: \[20, .*/;

  test('the options of a batten in its comments are valid', () => {
    const remarks = [...shown.matchAll(/^ {6}# (\w+: [^#\n]+)/gm)].map(([, text]) => text!.trim());
    expect(remarks.map((text) => text.split(':')[0])).toEqual(['apex', 'through', 'ends', 'strip']);
    for (const remark of remarks) {
      const instead = /^(apex|through)/.test(remark);
      const used = STARTER_JOB.replace(WITH_NAIL, (nail) => (instead ? remark : `${nail}\n      ${remark}`));
      expect(used).not.toBe(STARTER_JOB);
      expect(makePart(parseJob(used).job).edges).toHaveLength(2);
    }
  });

  test('the other steps in its comments are valid', () => {
    const steps = others.matchAll(/^ {4}# - (\w+): [^\n]*\n((?: {4}# {3}[^\n]*\n)+)/gm);
    const kinds = [...steps].map(([, kind, rest]) => {
      // An arc shows three keys that exclude each other; the others use all they show.
      const keys = [...rest!.matchAll(/^ {4}# {3}(.*)/gm)].map(([, key]) => `      ${key}\n`);
      for (const used of kind === 'arc' ? keys : [keys.join('')]) {
        const step = `- ${kind}: [38, 0]\n${used}`;
        const { job } = parseJob(STARTER_JOB.replace(/- batten: \[38, 0\].*\n.*\n/, () => step));
        expect(drawnEdge(job.edges[1]).steps[1]?.kind).toBe(kind);
        expect(makePart(job).edges[1]?.runs).toHaveLength(3);
      }
      return kind;
    });
    expect(kinds).toEqual(['arc', 'bow', 'ellipse', 'spline']);
  });
});
