import fc from 'fast-check';
import type { Curve } from '../../src/curves/curve.ts';
import { pathBounds } from '../../src/curves/geometry/bounds.ts';
import type { Segment } from '../../src/curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../src/curves/geometry/point.ts';
import { reversePath } from '../../src/curves/geometry/transform.ts';
import type { EdgeStep } from '../../src/job/steps/step-kinds.ts';
import { makeEdge } from '../../src/part/edge.ts';
import { isBelowReference } from '../../src/part/make-edges.ts';
import type { Part, PartEdge } from '../../src/part/part.ts';
import type { Rule } from '../../src/units/rule.ts';

const IN = 25.4;
const INCHES: Rule = { unit: 'in', graduation: { numerator: 1, denominator: 32 } };
const MILLIMETRES: Rule = { unit: 'mm', graduation: { numerator: 1, denominator: 2 } };

const line = (from: Point, to: Point): Segment => ({ type: 'line', from, to });
const cubic = (a: Point, b: Point, c: Point, d: Point): Segment => ({
  type: 'cubic',
  controls: [a, b, c, d],
});

/** A gentle hump from one point to another, rising `rise` over the straight between them. */
function hump(from: Point, to: Point, rise: number): Segment {
  const third = (to.x - from.x) / 3;
  const slope = (to.y - from.y) / 3;
  return cubic(
    from,
    point(from.x + third, from.y + slope + rise * (4 / 3)),
    point(to.x - third, to.y - slope + rise * (4 / 3)),
    to,
  );
}

const run = (
  kind: Curve['kind'],
  from: Point,
  to: Point,
  path: readonly Segment[],
  pins: readonly Point[] = [],
): Curve => ({
  kind,
  from,
  to,
  pins,
  exact: path,
  path,
});

export interface Sketch {
  readonly name: string;
  readonly rule?: Rule;
  readonly edges: readonly { readonly name: string; readonly runs: readonly Curve[] }[];
  readonly saw?: readonly Segment[];
  readonly sawAllowance?: number;
}

/** The step that a run would come from, as far as its words on paper go. */
function stepOf({ kind, to, pins }: Curve, key: string): EdgeStep {
  const by = { through: [pins[1] ?? to] } as const;
  if (kind === 'batten') return { kind, to, key, by, ends: ['free', 'free'] };
  return kind === 'arc' ? { kind, to, key, by: { rise: 1 } } : { kind: 'line', to, key };
}

function edgeOf({ name, runs }: Sketch['edges'][number], woodIsAbove: boolean): PartEdge {
  const key = `edges.${name}`;
  const withSteps = runs.map((run, i) => ({ ...run, step: stepOf(run, `${key}[${i + 1}]`) }));
  return { ...makeEdge({ name, key, woodIsAbove }, withSteps), length: 0 };
}

function edgesOf([first, second]: Sketch['edges']): Part['edges'] {
  const edge = edgeOf(first!, true);
  return second ? [edge, edgeOf(second, false)] : [{ ...edge, woodIsAbove: isBelowReference(edge) }];
}

/** A part from its edges, with runs of their kind. */
function partOf(sketch: Sketch): Part {
  const { name, rule = INCHES, edges, saw = [], sawAllowance = 0 } = sketch;
  const paths = edges.map(({ runs }) => runs.flatMap(({ path }) => path));
  const [lower = [], upper] = paths;
  const ends = (runs: readonly Curve[]): [Point, Point] => [runs[0]!.from, runs.at(-1)!.to];
  const [a, b] = ends(edges[0]!.runs);
  const second = edges[1] ? ends(edges[1].runs) : undefined;
  const outline =
    upper && second ? [...lower, line(b, second[1]), ...reversePath(upper), line(second[0], a)] : lower;
  return {
    name,
    rule,
    quantity: 1,
    joints: [],
    exact: outline,
    edges: edgesOf(edges),
    shape: upper
      ? { type: 'closed', outline, leastWidth: { width: 10, at: a }, tenons: [] }
      : { type: 'line', line: lower, chord: [a, b] },
    sawAllowance,
    saw,
    bounds: pathBounds([...outline, ...saw]),
    warnings: [],
  };
}

/** A back leg of a hall bench: straight front, bowed back, and a saw line 1/16 in outside. */
export function backLeg(): Part {
  const s = IN / 16;
  const [a, b, c, d] = [point(0, 0), point(34 * IN, 0), point(34 * IN, 1.75 * IN), point(0, 3 * IN)];
  const knee = point(8 * IN, 3 * IN);
  const back = cubic(knee, point(17 * IN, 4.1 * IN), point(26 * IN, 3.2 * IN), c);
  const up = ({ x, y }: Point): Point => point(x, y + s);
  return partOf({
    name: 'Back leg',
    edges: [
      { name: 'front', runs: [run('line', a, b, [line(a, b)])] },
      {
        name: 'back',
        runs: [
          run('line', d, knee, [line(d, knee)]),
          run('batten', knee, c, [back], [knee, point(17 * IN, 3.5 * IN), c]),
        ],
      },
    ],
    saw: [
      line(point(-s, -s), point(34 * IN + s, -s)),
      line(point(34 * IN + s, -s), point(34 * IN + s, 1.75 * IN + s)),
      line(point(34 * IN + s, 1.75 * IN + s), up(c)),
      cubic(up(c), point(26 * IN, 3.2 * IN + s), point(17 * IN, 4.1 * IN + s), up(knee)),
      line(up(knee), point(-s, 3 * IN + s)),
      line(point(-s, 3 * IN + s), point(-s, -s)),
    ],
    sawAllowance: s,
  });
}

/** The top of a garden arch: one circular arc, 1,200 mm across and 320 mm high. */
export function archTop(): Part {
  const [chord, rise] = [1200, 320];
  const radius = chord ** 2 / (8 * rise) + rise / 2;
  const half = Math.asin(chord / 2 / radius);
  const [from, to] = [point(0, 0), point(chord, 0)];
  const arc: Segment = {
    type: 'arc',
    centre: point(chord / 2, rise - radius),
    radius,
    start: Math.PI / 2 + half,
    sweep: -2 * half,
  };
  return partOf({
    name: 'Arch top',
    rule: MILLIMETRES,
    edges: [{ name: 'arch', runs: [run('arc', from, to, [arc])] }],
  });
}

/** The front edge of a wall shelf: a shallow hump, 700 mm long. */
export function shelfFront(): Part {
  const [from, to] = [point(0, 0), point(700, 0)];
  return partOf({
    name: 'Shelf front',
    rule: MILLIMETRES,
    edges: [{ name: 'front', runs: [run('batten', from, to, [hump(from, to, 30)], [from, to])] }],
  });
}

/** A plain rectangle. */
export function block(length: number, width: number): Part {
  const [a, b, c, d] = [point(0, 0), point(length, 0), point(length, width), point(0, width)];
  return partOf({
    name: 'Block',
    rule: MILLIMETRES,
    edges: [
      { name: 'front', runs: [run('line', a, b, [line(a, b)])] },
      { name: 'back', runs: [run('line', d, c, [line(d, c)])] },
    ],
  });
}

/** Any gentle part of a workshop's size: a hump alone, or two edges with a hump between them and a saw line. */
export function gentlePart(): fc.Arbitrary<Part> {
  const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  return fc
    .record({
      length: size(60, 1500),
      lean: size(-100, 100),
      rise: size(-250, 250),
      width: size(20, 300),
      closed: fc.boolean(),
      saw: size(0, 3),
    })
    .map(({ length, lean, rise, width, closed, saw }) => {
      const [a, b] = [point(0, 0), point(length, lean)];
      const curve = hump(a, b, rise);
      const edge = { name: 'front', runs: [run('batten', a, b, [curve], [a, b])] };
      if (!closed) return partOf({ name: 'Rail', rule: MILLIMETRES, edges: [edge] });
      const low = Math.min(0, lean, lean + rise, rise) * 1.2 - width;
      const [c, d] = [point(0, low), point(length, low)];
      const box = [
        point(-saw, low - saw),
        point(length + saw, low - saw),
        point(length + saw, lean + saw),
        point(-saw, saw),
      ];
      return partOf({
        name: 'Seat',
        rule: INCHES,
        edges: [{ name: 'under', runs: [run('line', c, d, [line(c, d)])] }, edge],
        sawAllowance: saw,
        saw: saw > 0.2 ? box.map((from, i) => line(from, box[(i + 1) % 4]!)) : [],
      });
    });
}
