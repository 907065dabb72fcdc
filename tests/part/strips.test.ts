import { describe, expect, test } from 'vitest';
import { pieceEnd, pieceStart } from '../../src/curves/geometry/evaluate.ts';
import { figuresOf } from '../../src/curves/measurements.ts';
import type { Part } from '../../src/part/part.ts';
import { faultsOf, partOf } from './jobs.ts';

const edge = (steps: string): string => `
part: Garden arch brace
units: mm
edges:
  brace:
    - from: [0, 0]
${steps}
`;

const runsOf = (part: Part) => part.edges[0]!.runs;

describe('a strip held at an end', () => {
  test('leaves in line with the line or arc it meets', () => {
    const part = partOf(
      edge(`    - line: [100, 5]
    - batten: [500, 60]
      through: [300, 50]
      ends: [held, held]
    - arc: [700, 60]
      rise: 10`),
    );
    const [line, batten, arc] = runsOf(part);
    expect(pieceStart(batten!.exact[0]!).angle).toBeCloseTo(pieceEnd(line!.exact[0]!).angle, 9);
    expect(pieceEnd(batten!.exact.at(-1)!).angle).toBeCloseTo(pieceStart(arc!.exact[0]!).angle, 9);
  });

  test('keeps to its own chord where it meets a strip, or nothing', () => {
    const part = partOf(
      edge(`    - batten: [400, 30]
      through: [200, 60]
      ends: [held, free]`),
    );
    expect(pieceStart(runsOf(part)[0]!.exact[0]!).angle).toBeCloseTo(Math.atan2(30, 400), 9);
  });

  test('bends twice as sharply at a middle nail as a free one', () => {
    // The held strip is four half-size copies of half the free strip: the same rise, twice the curvature.
    const radius = (ends: string): number => {
      const part = partOf(edge(`    - batten: [400, 0]\n      through: [200, 30]\n      ends: ${ends}`));
      return figuresOf(runsOf(part)[0]!).tightest!.radius;
    };
    expect(radius('free') / radius('held')).toBeCloseTo(2, 9);
  });

  test('may be asked by its apex', () => {
    const part = partOf(edge('    - batten: [400, 0]\n      apex: [230, 30]\n      ends: [held, free]'));
    const { apex } = figuresOf(runsOf(part)[0]!);
    expect(apex!.at.x).toBeCloseTo(230, 6);
    expect(apex!.at.y).toBeCloseTo(30, 6);
  });

  test('an impossible apex gives the nearest one', () => {
    const [fault] = faultsOf(edge('    - batten: [400, 0]\n      apex: [390, 30]\n      ends: held'));
    expect(fault).toMatchObject({ code: 'batten.no-such-apex', key: 'edges.brace[1]' });
    expect(fault!.message).toMatch(/\d mm/);
  });
});

describe('many nails', () => {
  test('are all passed, in order', () => {
    const nails = [
      [100, 22.2],
      [220, 37.2],
      [330, 39.6],
      [460, 28.6],
    ] as const;
    const through = nails.map(([x, y]) => `[${x}, ${y}]`).join(', ');
    const part = partOf(edge(`    - batten: [600, 0]\n      through: [${through}]`));
    const [run] = runsOf(part);
    expect(run!.pins.slice(1, -1).map(({ x, y }) => [x, y])).toEqual(nails);
    run!.exact.slice(1).forEach((piece, i) => {
      const at = pieceStart(piece);
      expect(Math.hypot(at.x - nails[i]![0], at.y - nails[i]![1])).toBeLessThan(1e-6);
    });
  });

  test('two that lift the strip alike need no warning', () => {
    const part = partOf(edge('    - batten: [600, 0]\n      through: [[200, 30], [400, 30]]'));
    expect(part.warnings).toEqual([]);
  });

  test('a nail that would have to pull gives a warning with its station', () => {
    const part = partOf(edge('    - batten: [600, 0]\n      through: [[150, 40], [300, 30], [450, 40]]'));
    expect(part.warnings).toHaveLength(1);
    expect(part.warnings[0]).toMatchObject({ code: 'batten.nail-pulls' });
    expect(part.warnings[0]!.message).toContain('300 mm');
  });
});

describe('other ways of bending', () => {
  test('a bow and a half ellipse rise as asked, above or below', () => {
    for (const kind of ['bow', 'ellipse'])
      for (const rise of [80, -80]) {
        const part = partOf(edge(`    - ${kind}: [400, 0]\n      rise: ${rise}`));
        const { apex } = figuresOf(runsOf(part)[0]!);
        expect(apex!.at.x).toBeCloseTo(200, 6);
        expect(apex!.at.y).toBeCloseTo(rise, 6);
      }
  });

  test('an ellipse as high as half its chord is the half circle', () => {
    const part = partOf(edge('    - ellipse: [400, 0]\n      rise: 200'));
    expect(part.edges[0]!.length).toBeCloseTo(Math.PI * 200, 6);
  });

  test('a tapered strip has its apex nearer its thin end', () => {
    const apexAt = (strip: string): number =>
      figuresOf(
        runsOf(partOf(edge(`    - batten: [400, 0]\n      through: [200, 30]\n      strip: ${strip}`)))[0]!,
      ).apex!.at.x;
    expect(apexAt('{from: 6, to: 3}')).toBeGreaterThan(205);
    expect(apexAt('{from: 3, to: 6}')).toBeLessThan(195);
  });

  test.each([
    {
      name: 'a tapered strip over two nails',
      rest: 'through: [[100, 22.2], [200, 30]]',
      code: 'batten.taper-nails',
    },
    {
      name: 'a tapered strip held at an end',
      rest: 'through: [200, 30]\n      ends: held',
      code: 'batten.taper-held',
    },
  ])('$name is refused', ({ rest, code }) => {
    const [fault] = faultsOf(edge(`    - batten: [400, 0]\n      ${rest}\n      strip: {from: 6, to: 3}`));
    expect(fault).toMatchObject({ code, key: 'edges.brace[1]' });
  });

  test('a strip that is too high gives its limit and a remedy', () => {
    const [fault] = faultsOf(
      edge('    - batten: [400, 0]\n      through: [80, 260]\n      ends: [held, free]'),
    );
    expect(fault).toMatchObject({ code: 'batten.too-high' });
    // Held at the start, nail at 0.2: the fold lies at 0.30830 of the chord (reference shapes), 123.3 mm.
    expect(fault!.message).toMatch(/123\.\d* mm/);
  });
});
