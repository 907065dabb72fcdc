import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pieceEnd, pieceStart } from '../../src/curves/geometry/evaluate.ts';
import type { Segment } from '../../src/curves/geometry/pieces/piece.ts';
import { distance } from '../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../src/curves/geometry/tolerance.ts';
import { finishedLine } from '../../src/part/part-lines.ts';
import { largestGap, spread, worstDistance } from '../curves/measure.ts';
import { faultsOf, partOf, SAMPLES, samplePart } from './jobs.ts';

const closes = (path: readonly Segment[]): number => distance(pieceEnd(path.at(-1)!), pieceStart(path[0]!));

/** Twice the area inside, positive when it runs counter-clockwise. */
const turning = (path: readonly Segment[]): number => {
  const points = spread(path, 8);
  return points.reduce((sum, p, i) => {
    const q = points[(i + 1) % points.length]!;
    return sum + p.x * q.y - q.x * p.y;
  }, 0);
};

describe.each(SAMPLES)('the sample %s', (name) => {
  const part = samplePart(name);
  const finished = finishedLine(part.shape);

  test('has a finished line without a gap, closed and counter-clockwise where it has two edges', () => {
    expect(largestGap(finished)).toBeLessThan(1e-6);
    if (part.shape.type === 'closed') {
      expect(closes(finished)).toBeLessThan(1e-6);
      expect(turning(finished)).toBeGreaterThan(0);
    }
  });

  test('has its saw line at the allowance outside the finished line, all along', () => {
    expect(part.saw.length).toBeGreaterThan(0);
    expect(largestGap(part.saw)).toBeLessThan(1e-4);
    const away = spread(part.saw, 5).map((p) => worstDistance([p], finished));
    expect(Math.min(...away)).toBeGreaterThan(part.sawAllowance - 2 * FIT_MM);
    // Farther only at corners, where both sides run on until they meet: √2 at a square one.
    expect(Math.max(...away)).toBeLessThan(part.sawAllowance * 1.5);
    if (part.shape.type === 'closed') expect(turning(part.saw)).toBeGreaterThan(turning(finished));
  });

  test('is plain data', () => {
    expect(JSON.parse(JSON.stringify(part))).toEqual(part);
  });
});

const closed = (edges: string, rest = ''): string => `
part: Wall shelf rail
units: mm
edges:
${edges}
${rest}`;

const PLAIN = `  lower:
    - from: [0, 0]
    - line: [400, 0]
  upper:
    - from: [0, 60]
    - line: [400, 40]`;

describe('a closed part', () => {
  test('has its least width where the edges come nearest', () => {
    const part = partOf(
      closed(`  lower:
    - from: [0, 0]
    - line: [600, 0]
  upper:
    - from: [0, 80]
    - arc: [600, 80]
      rise: -30`),
    );
    // The arc hangs 30 mm in the middle, its lowest place: 80 − 30.
    expect(part.shape.type === 'closed' && part.shape.leastWidth.width).toBeCloseTo(50, 6);
    expect(part.shape.type === 'closed' && part.shape.leastWidth.at.x).toBeCloseTo(300, 2);
  });

  test('may come to a point', () => {
    const part = partOf(
      closed(`  lower:
    - from: [0, 0]
    - line: [600, 0]
  upper:
    - from: [0, 40]
    - line: [600, 0]`),
    );
    expect(part.shape.type === 'closed' && part.shape.outline).toHaveLength(3);
    expect(part.shape.type === 'closed' && part.shape.leastWidth.width).toBeCloseTo(0, 9);
  });

  test('is the same whichever edge is written first', () => {
    const [lower, upper] = PLAIN.split('  upper:') as [string, string];
    const swapped = partOf(closed(`  upper:${upper}\n${lower}`));
    const outline = partOf(closed(PLAIN)).shape;
    expect(swapped.shape).toEqual(outline);
  });
});

describe('faults, each with its key', () => {
  test('edges that cross name the station', () => {
    const [fault, ...more] = faultsOf(
      closed(`  lower:
    - from: [0, 0]
    - line: [400, 50]
  upper:
    - from: [0, 30]
    - line: [400, 20]`),
    );
    expect(more).toEqual([]);
    expect(fault).toMatchObject({ code: 'part.edges-cross', key: 'edges.upper' });
    expect(fault!.message).toContain('200 mm'); // 50·x/400 = 30 − 10·x/400 at x = 200
  });

  test('edges that touch name the station, but for a point at an end', () => {
    const arched = (rise: number): string =>
      `  lower:\n    - from: [0, 0]\n    - arc: [400, 0]\n      rise: ${rise}\n  upper:\n    - from: [0, 40]\n    - line: [400, 40]`;
    const [fault] = faultsOf(closed(arched(39.995)));
    expect(fault).toMatchObject({ code: 'part.edges-touch', key: 'edges.upper' });
    expect(fault!.message).toContain('200 mm');
    expect(partOf(closed(arched(39.9))).shape).toMatchObject({
      leastWidth: { width: expect.closeTo(0.1, 4) },
    });
    const pointed =
      '  lower:\n    - from: [0, 0]\n    - line: [400, 40]\n  upper:\n    - from: [0, 40]\n    - line: [400, 40]';
    expect(partOf(closed(pointed)).shape).toMatchObject({ leastWidth: { width: 0 } });
  });

  test('ends that are not square name both stations', () => {
    const [fault] = faultsOf(closed(PLAIN.replace('[0, 60]', '[5, 60]')));
    expect(fault).toMatchObject({ code: 'part.ends-not-square' });
    expect(fault!.message).toMatch(/0 mm.*5 mm/);
  });

  test('ends that show the same station give their distance', () => {
    const apart = (text: string, by: string): string =>
      faultsOf(text.replace('[0, 60]', `[${by}, 60]`))[0]!.message;
    expect(apart(closed(PLAIN), '0.00023')).toContain('0.00023 mm');
    const inches = closed(PLAIN).replace('units: mm', 'units: in');
    expect(apart(inches, '0.00001')).toContain('0.00001"');
  });

  test('stock that is too narrow and too short gives two faults with stations', () => {
    const faults = faultsOf(closed(PLAIN, 'stock:\n  length: 390\n  width: 55'));
    expect(faults).toMatchObject([
      { code: 'stock.too-short', key: 'stock.length' },
      { code: 'stock.too-narrow', key: 'stock.width' },
    ]);
    expect(faults[1]!.message).toMatch(/ 60 mm.* 0 mm/);
  });

  test('the fault of an impossible strip has the key of its step', () => {
    const [fault] = faultsOf(`
part: Garden arch hoop
units: mm
edges:
  hoop:
    - from: [0, 0]
    - line: [100, 0]
    - batten: [1100, 0]
      through: [600, 900]`);
    expect(fault).toMatchObject({ code: 'batten.too-high', key: 'edges.hoop[2]' });
    expect(fault!.message).toContain('834.627 mm'); // Gauss's constant of 1000 mm
  });

  test('a saw line that folds is placed at the allowance', () => {
    const faults = faultsOf(`
part: Wall shelf hook
units: mm
edges:
  lower:
    - from: [0, 0]
    - arc: [20, 0]
      rise: 10
allowance:
  saw: 3
`);
    expect(faults).toEqual([]); // outside the bulge
    const [fault] = faultsOf(`
part: Wall shelf hook
units: mm
edges:
  lower:
    - from: [0, 20]
    - arc: [20, 20]
      rise: -10
allowance:
  saw: 12
`);
    expect(fault).toMatchObject({ code: 'parallel.folds', key: 'allowance.saw' });
  });
});

test('stock that fits the part but not its saw line is a warning', () => {
  const part = partOf(closed(PLAIN, 'stock:\n  length: 401\n  width: 61\nallowance:\n  saw: 2'));
  expect(part.warnings.map(({ code }) => code)).toEqual(['stock.no-saw-length', 'stock.no-saw-width']);
});

test('property: a job in inches and in millimeters gives the same lines', () => {
  const sixteenths = fc.integer({ min: 1, max: 40 });
  fc.assert(
    fc.property(sixteenths, fc.integer({ min: 4, max: 23 }), (rise, nail) => {
      const job = (unit: 'in' | 'mm'): string => {
        const length = (inches: number): string =>
          unit === 'in' ? `${inches}` : `${(inches * 25400) / 1000}`;
        return `
part: Hall bench rail
units: ${unit}
edges:
  upper:
    - from: [0, ${length(1)}]
    - batten: [${length(28)}, ${length(1.5)}]
      through: [${length(nail)}, ${length(2 + rise / 16)}]
`;
      };
      expect(partOf(job('in')).shape).toEqual(partOf(job('mm')).shape);
    }),
    { numRuns: 40 },
  );
});

test('a mirrored job gives the mirrored line', () => {
  const job = (sign: 1 | -1): string => `
part: Garden arch brace
units: mm
edges:
  brace:
    - from: [0, 0]
    - batten: [500, ${sign * 40}]
      through: [200, ${sign * 70}]
    - arc: [700, ${sign * 20}]
      rise: ${sign * 15}
    - spline: [900, ${sign * 60}]
      through: [[800, ${sign * 30}]]
      ends: [held, natural]
`;
  const up = spread(finishedLine(partOf(job(1)).shape), 6);
  const down = spread(finishedLine(partOf(job(-1)).shape), 6);
  up.forEach((p, i) => {
    expect(distance({ x: p.x, y: -p.y }, down[i]!)).toBeLessThan(1e-8);
  });
});

test('a held end of a spline leaves along the line or arc before it', () => {
  const part = partOf(`
part: Wall shelf bracket
units: mm
edges:
  under:
    - from: [0, 0]
    - line: [100, 10]
    - spline: [300, 120]
      through: [[200, 50]]
      ends: [held, natural]
`);
  const [line, spline] = part.edges[0]!.runs;
  expect(pieceStart(spline!.exact[0]!).angle).toBeCloseTo(pieceEnd(line!.exact[0]!).angle, 12);
});

describe('an edge that runs back over its stations', () => {
  const edge = (steps: string): string =>
    `part: Bracket\nunits: mm\nedges:\n  low:\n    - from: [0, 160]\n${steps}`;
  const over = (rise: number): string =>
    edge(`    - line: [40, 160]\n    - line: [40, 150]\n    - ellipse: [300, 165]\n      rise: ${rise}\n`);

  test('is refused if it crosses the step next to it', () => {
    const [fault] = faultsOf(over(60));
    expect(fault).toMatchObject({ code: 'part.edge-crosses-itself', key: 'edges.low' });
    expect(fault!.message).toMatch(/ 40(\.\d+)? mm/);
  });

  test('is refused in a closed part, too', () => {
    const top = '  top:\n    - from: [0, 400]\n    - line: [300, 400]\n';
    expect(faultsOf(over(60) + top)[0]).toMatchObject({ code: 'part.edge-crosses-itself' });
  });

  test('is accepted if it does not cross itself', () => {
    expect(faultsOf(edge('    - line: [40, 150]\n    - ellipse: [300, 165]\n      rise: 60\n'))).toEqual([]);
  });
});
