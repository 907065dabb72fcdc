import { describe, expect, test } from 'vitest';
import { planPlies } from '../../../src/shop/plies/plan-plies.ts';
import { withWrittenWarnings } from '../../../src/shop/words/written-warnings.ts';
import type { Faults } from '../../../src/units/fault.ts';
import { faultsOf, partOf } from '../../part/jobs.ts';

const ARC = 'edges:\n  inside:\n    - from: [0, 0]\n    - arc: [1200, 0]\n      rise: 300\n';
const PAIR = `${ARC}  outside:\n    parallel: inside\n    by: 45\n`;
const job = (laminate: string, edges = PAIR, more = '') =>
  `part: Arch\nunits: mm\nstock: {species: white oak, thickness: 40}\n${laminate && `laminate: ${laminate}\n`}${edges}${more}`;
const plan = (laminate: string, edges = PAIR, more = '') => planPlies(partOf(job(laminate, edges, more)));

/** The radius of an arc by its chord and rise (Euclid III.35), and the angle that it turns by. */
const RADIUS = 1200 ** 2 / (8 * 300) + 300 / 2;
const TURN = 2 * Math.asin(600 / RADIUS);

describe('plies of an arch', () => {
  test.each([
    ['below', 1],
    ['above', -1],
  ] as const)('with the form %s are concentric arcs, each with its own length', (form, way) => {
    const { lengths, lamination, form: made } = plan(`{plies: 9, form: ${form}}`);
    const face = form === 'below' ? RADIUS : RADIUS + 45;
    const sharper = 81 / 80;
    // The form has 81/80 of the bend of the edge: an arc as long as the edge, that turns by so much more.
    const onForm = { radius: face / sharper, turn: TURN * sharper };
    lengths.forEach((length, i) => {
      const middle = onForm.radius + way * (i + 0.5) * 5;
      expect(length).toBeCloseTo(middle * onForm.turn + 100, 6);
    });
    expect(lamination).toMatchObject({ plies: 9, thickness: 45, springbackFrom: 'beam theory' });
    expect(lamination.plyThickness).toBeCloseTo(5, 9);
    expect(made.pliesAbove).toBe(form === 'below');
  });

  test('are strained by t / 2R at the tightest ply: on the form, or last in its hollow', () => {
    const around = plan('{plies: 9, form: below}').lamination;
    expect(around.strain).toBeCloseTo(5 / (2 * RADIUS * (80 / 81)), 12);
    const inside = plan('{plies: 9, form: above}').lamination;
    expect(inside.tightestRadius).toBeCloseTo((RADIUS + 45) * (80 / 81) - 45, 9);
    expect(inside.strain).toBeCloseTo(5 / (2 * inside.tightestRadius), 12);
  });

  test('are by default the fewest that are safe, around the form', () => {
    const { lamination, stack } = plan('{form: below}');
    expect(stack.form).toBe('below');
    expect(lamination.verdict).toBe('safe');
    expect(plan(`{plies: ${lamination.plies - 1}}`).lamination.verdict).not.toBe('safe');
    const hung = ARC.replace('rise: 300', 'rise: -300');
    expect(plan('{plies: 9}', hung).stack.form).toBe('above');
  });

  test('may be given by the thickness of each', () => {
    expect(plan('{ply: 5}').lamination.plies).toBe(9);
    // 14 of 3.2 mm make 44.8 mm: rounded, and as thick as it takes.
    expect(plan('{ply: 3.2}').lamination.plyThickness).toBeCloseTo(45 / 14, 9);
    expect(plan('{plies: 6, ply: 4}', ARC).lamination).toMatchObject({ plies: 6, thickness: 24 });
  });

  test('a form by a trial piece rises more by what the piece lost', () => {
    for (const lost of [0, 2.5, 12, 60]) {
      const { form, lamination } = plan(`{plies: 9, springback: ${lost}}`);
      expect(form.rise - form.askedRise).toBeCloseTo(lost, 6);
      expect(lamination.springbackFrom).toBe('trial piece');
    }
  });

  test('go on past the edge where a level end reaches farther on the other edge', () => {
    const level = plan('{plies: 9}', PAIR, 'ends: {left: level, right: level}\n');
    const square = plan('{plies: 9}');
    // The outer arc meets the level line at the half chord √((R + 45)² − h²), h the height of the center's drop.
    const drop = RADIUS - 300;
    const more = Math.acos(drop / (RADIUS + 45)) - Math.acos(drop / RADIUS);
    expect(level.stack.reach[0]).toBeCloseTo(more * RADIUS, 6);
    expect(level.stack.reach[1]).toBeCloseTo(more * RADIUS, 6);
    const first = level.lengths[0]! - square.lengths[0]!;
    expect(first).toBeCloseTo(2 * more * RADIUS * (1 + (2.5 * 81) / 80 / RADIUS), 6);
    const { part, tails } = level.form;
    expect(part.edges[0]!.length).toBeCloseTo(level.form.length + tails[0] + tails[1], 6);
  });
});

describe('resawing', () => {
  test('takes the ply, its planing and a kerf of the board, for every ply of every copy', () => {
    const { resawing } = plan('{plies: 9}', PAIR, 'quantity: 2\n');
    expect(resawing).toMatchObject({ plies: 18, kerf: 3, planing: 1.5, width: 43 });
    expect(resawing.pitch).toBeCloseTo(5 + 1.5 + 3, 9);
    expect(resawing.loss).toBeCloseTo(1 - 5 / 9.5, 9);
    // 50 mm rough planes to 44 mm: the first that is 43 mm thick.
    expect(resawing.lumber?.lumber.name).toBe('50 mm');
    const cubic = (18 * 9.5 * resawing.length * 50) / 1e9;
    expect(resawing.rough?.cubicMetres).toBeCloseTo(cubic, 9);
  });

  test.each([
    [2000, 100, 10, 1, 1],
    [4000, 60, 6, 2, 1],
    [2000, 30, 3, 1, 3],
    [1000, 100, 10, 0, undefined],
    [2000, 9, 0, 1, undefined],
  ])(
    'a board of %d × %d mm gives %d plies side by side and %d end to end',
    (boardLength, boardWidth, across, along, count) => {
      const { boards } = planPlies(partOf(job('{plies: 9}')), { boardLength, boardWidth }).resawing;
      expect(boards).toMatchObject({ across, along });
      expect(boards?.count).toBe(count);
    },
  );
});

describe('refuses', () => {
  const OTHER = `${ARC}  outside:\n    - from: [0, 45]\n    - arc: [1200, 45]\n      rise: 300\n`;
  const STRAIGHT = 'edges:\n  one:\n    - from: [0, 0]\n    - line: [900, 0]\n';
  const CORNER =
    'edges:\n  one:\n    - from: [0, 0]\n    - line: [400, 100]\n    - arc: [900, 0]\n      rise: 40\n';
  test.each([
    ['two edges that are not parallel', job('{plies: 9}', OTHER), 'laminate.not-parallel', 'laminate'],
    ['a straight part', job('{plies: 9}', STRAIGHT), 'laminate.straight', 'laminate'],
    ['a corner', job('{plies: 9}', CORNER), 'sharpen.corner', 'edges.one'],
    ['plies that do not add up', job('{ply: 4.3}'), 'laminate.ply', 'laminate.ply'],
    ['a ply as thick as the part', job('{ply: 40}'), 'lamination.plies', 'laminate.ply'],
    ['the thickness twice', job('{plies: 9, ply: 5}'), 'job.one-of', 'laminate.ply'],
    ['a single edge without a number of plies', job('{ply: 5}', ARC), 'lamination.size', 'laminate'],
    [
      'a springback as large as the rise',
      job('{springback: 300}'),
      'laminate.springback',
      'laminate.springback',
    ],
    [
      'a springback that no form gives',
      job('{plies: 9, springback: 250}', ARC.replace('300', '599')),
      'laminate.springback',
      'laminate.springback',
    ],
    ['a saw line', job('{plies: 9}', PAIR, 'allowance: {saw: 2}\n'), 'laminate.saw', 'allowance.saw'],
    [
      'layers',
      job('{plies: 9}').replace('thickness: 40', 'thickness: 40, layers: 2'),
      'laminate.layers',
      'stock.layers',
    ],
  ])('%s', (_, text, code, key) => expect(faultsOf(text)).toMatchObject([{ code, key }]));

  test('one ply, no ply and a side that is neither', () => {
    for (const [laminate, code] of [
      ['{plies: 1}', 'lamination.plies'],
      ['{plies: 0}', 'job.count'],
      ['{ply: 0}', 'length.zero'],
      ['{form: left}', 'job.unknown-word'],
      ['{springback: -2}', 'length.negative'],
      ['{layers: 3}', 'job.unknown-key'],
    ] as const)
      expect(codes(() => partOf(job(laminate)))).toEqual([code]);
  });

  test('a ply that breaks, and is thicker than the chart for soaked ones', () => {
    const tight = ARC.replace('1200', '200').replace('rise: 300', 'rise: 100');
    const bent = (laminate: string) => () => withWrittenWarnings(partOf(job(laminate, tight)));
    // Radius 100 mm: the chart gives 3/32 in; white oak breaks from 1.7 mm.
    expect(codes(bent('{plies: 6, ply: 5}'))).toEqual(['laminate.breaks']);
    expect(bent('{plies: 6, ply: 2}')().warnings).toMatchObject([{ code: 'form.breaks' }]);
    expect(bent('{plies: 6, ply: 0.8}')().warnings).toEqual([]);
  });

  test('wide stock is not needed: the plies are narrow', () => {
    const narrow = job('{plies: 9}').replace('thickness: 40', 'thickness: 40, width: 60, length: 2000');
    expect(faultsOf(narrow)).toEqual([]);
    expect(faultsOf(narrow.replace('laminate: {plies: 9}\n', ''))).toMatchObject([
      { code: 'stock.too-narrow' },
    ]);
  });
});

function codes(make: () => unknown): string[] {
  try {
    make();
  } catch (error) {
    return (error as Faults).list.map(({ code }) => code);
  }
  return [];
}
