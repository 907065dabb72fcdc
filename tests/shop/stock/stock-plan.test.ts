import { describe, expect, test } from 'vitest';
import { pieceEnd, pieceStart } from '../../../src/curves/geometry/evaluate.ts';
import { distance } from '../../../src/curves/geometry/point.ts';
import { edgesAsCut } from '../../../src/part/outline/outline.ts';
import type { Part } from '../../../src/part/part.ts';
import { blankWarnings, boardFeet, cubicMetres } from '../../../src/shop/stock/blank.ts';
import {
  chooseLumber,
  LUMBER_THICKNESSES,
  layerChoices,
} from '../../../src/shop/stock/lumber-thicknesses.ts';
import { planStock } from '../../../src/shop/stock/stock-plan.ts';
import { sectionModulus, weakestSection } from '../../../src/shop/stock/weakest-section.ts';
import { bestGrainDirection, worstRunout } from '../../../src/shop/wood/grain-runout.ts';
import { layerRows, runoutGrade } from '../../../src/shop/words/describe-stock.ts';
import { defaultRule } from '../../../src/units/rule.ts';
import { partOf, samplePart } from '../../part/jobs.ts';
import { block } from '../../tiling/parts.ts';

const IN = 25.4;
const RADIANS = Math.PI / 180;

const plank = (more: string, width = 60): Part =>
  partOf(`part: Rail
units: mm
stock: {species: white oak, thickness: 30}
edges:
  under:
    - from: [0, 0]
    - line: [500, 0]
  over:
    - from: [0, ${width}]
    - line: [500, ${width}]
${more}`);

const arched = (rise: number, ends = ''): Part =>
  partOf(`part: Arch
units: mm
edges:
  under:
    - from: [0, 0]
    - arc: [1000, 0]
      rise: ${rise}
  over:
    - from: [0, 80]
    - arc: [1000, 80]
      rise: ${rise}
${ends}`);

describe('boardFeet', () => {
  test('a board 1 in thick, a foot wide and a foot long holds one board foot', () => {
    // The definition: 144 cubic inches.
    expect(boardFeet({ length: 12 * IN, width: 12 * IN, thickness: IN })).toBeCloseTo(1, 12);
  });

  test('a board thinner than 1 in counts as 1 in', () => {
    // Griffith, Advanced Projects in Woodwork: "figure it as 1 in".
    expect(boardFeet({ length: 96 * IN, width: 6 * IN, thickness: IN / 2 })).toBeCloseTo(4, 12);
    expect(boardFeet({ length: 96 * IN, width: 6 * IN, thickness: 2 * IN })).toBeCloseTo(8, 12);
  });

  test('424 board feet make a cubic meter', () => {
    // 1 m³ = 61 023.74 in³; over 144: 423.78.
    expect(1 / cubicMetres({ length: 12 * IN, width: 12 * IN, thickness: IN })).toBeCloseTo(423.776, 3);
  });
});

describe('rough thicknesses', () => {
  test('boards up to 1 1/2 in lose 3/16 in to planing, thicker ones 1/4 in', () => {
    // The rule behind the NHLA table: 4/4 to 13/16, 6/4 to 1 5/16, 8/4 to 1 3/4.
    for (const { rough, planed } of LUMBER_THICKNESSES.in) {
      const off = rough <= 1.5 * IN ? 3 / 16 : 1 / 4;
      expect((rough - planed) / IN).toBeCloseTo(off, 12);
    }
  });

  test.each([
    [13 / 16, 1, '4/4'],
    [7 / 8, 1, '5/4'],
    [1.75, 1, '8/4'],
    [1.75, 2, '5/4'],
    [3, 2, '7/4'],
    [3.75, 1, '16/4'],
  ])('%f in takes %i of %s', (inches, count, quarter) => {
    expect(chooseLumber(inches * IN, count, 'in')?.lumber.name).toBe(quarter);
  });

  test('the waste is the share of the rough thickness that is planed away', () => {
    // 1 3/4 in out of two of 5/4: 1.75 of 2.5 in.
    expect(chooseLumber(1.75 * IN, 2, 'in')?.waste).toBeCloseTo(0.3, 12);
  });

  test('layerRows name the rough thickness in the unit of the rule', () => {
    const roughs = (unit: 'in' | 'mm') =>
      layerRows(layerChoices(0.875 * IN, 1, unit), defaultRule(unit)).map(([, rough]) => rough);
    expect(roughs('mm').slice(1)).toEqual(['32 mm', '20 mm', '20 mm', '20 mm']);
    expect(roughs('in').slice(1)).toEqual(['5/4 (1 1/4")', '5/8"', '1/2"', '1/2"']);
  });

  test('given layers are the only choice, and a part too thick for one board begins with two', () => {
    expect(layerChoices(50, 3, 'in').map(({ count }) => count)).toEqual([3]);
    expect(layerChoices(50, 1, 'in').map(({ count }) => count)).toEqual([1, 2, 3, 4]);
    expect(layerChoices(150, 1, 'in').map(({ count }) => count)).toEqual([2, 3, 4]);
    expect(layerChoices(5000, 1, 'in')).toEqual([]);
  });
});

describe('blankOf', () => {
  test('the blank is the part over all and the usual allowances', () => {
    const { blank } = planStock(samplePart('hall-bench-leg.yaml'), {});
    // 34 in and 1/16 in of saw allowance at either end; Griffith's 1/2 in, and 1/8 in on 1 3/4 in.
    expect(blank.length / IN).toBeCloseTo(34 + 2 / 16 + 1 / 2, 6);
    expect(blank.thickness! / IN).toBeCloseTo(1.75 + 1 / 8, 12);
    expect(blank.allowances.width / IN).toBeCloseTo(1 / 4, 12);
  });

  test('the blank takes its width allowance from the job', () => {
    expect(planStock(plank('allowance: {width: 11}\n'), {}).blank.width).toBeCloseTo(71, 9);
    expect(planStock(plank(''), {}).blank.width).toBeCloseTo(66, 9);
  });

  test('the blank turns with the grain', () => {
    const { blank } = planStock(plank(''), { grain: 30 * RADIANS });
    expect(blank.length - 12.5).toBeCloseTo(500 * Math.cos(30 * RADIANS) + 60 * Math.sin(30 * RADIANS), 8);
    expect(blank.width - 6).toBeCloseTo(500 * Math.sin(30 * RADIANS) + 60 * Math.cos(30 * RADIANS), 8);
  });

  test('stock smaller than the blank gives a warning', () => {
    const part = partOf(`part: Rail
units: mm
stock: {length: 505, width: 70, thickness: 30}
edges:
  under:
    - from: [0, 0]
    - line: [500, 0]
  over:
    - from: [0, 60]
    - line: [500, 60]
`);
    const [warning, ...others] = blankWarnings(part, planStock(part, {}).blank);
    expect(others).toEqual([]);
    expect(warning?.code).toBe('stock.blank-length');
    expect(warning?.message).toContain('5 mm beyond');
  });
});

describe('planStock by weight', () => {
  test('a plank of white oak weighs volume times density, without its mortise', () => {
    const weight = (more: string): number => planStock(plank(more), {}).amount!.weight!.part;
    expect(weight('')).toBeCloseTo(0.5 * 0.06 * 0.03 * 761.6, 9);
    const mortise = 'joints:\n  - mortise: {at: 100, out: 30, length: 40, width: 10}\n';
    expect(weight('') - weight(mortise)).toBeCloseTo(0.04 * 0.01 * 0.03 * 761.6, 9);
  });

  test('an unknown wood has no weight, but still board feet', () => {
    const part = samplePart('hall-bench-leg.yaml');
    const { amount } = planStock({ ...part, stock: { ...part.stock!, species: 'cloudwood' } }, {});
    expect(amount?.weight).toBeUndefined();
    // Two blanks out of 8/4: 2 in thick rough.
    const { blank } = planStock(part, {});
    expect(amount?.rough?.boardFeet).toBeCloseTo((2 * 2 * (blank.length / IN) * (blank.width / IN)) / 144, 9);
  });
});

describe('planStock by grain', () => {
  test('takes the grain of the job, unless another is given', () => {
    const stock = { species: 'white oak', thickness: 30, layers: 1, grain: 30 * RADIANS };
    const turned = { ...plank(''), stock };
    expect(planStock(turned, {}).blank).toEqual(planStock(plank(''), { grain: 30 * RADIANS }).blank);
    expect(planStock(turned, { grain: 0 }).blank).toEqual(planStock(plank(''), {}).blank);
  });

  test('an arc of 40° runs out 20° at its ends when the grain follows its chord', () => {
    // Half the included angle: a tangent at the end of a circle's arc. rise = R(1 − cos 20°), chord = 2R sin 20°.
    const rise = (1000 / 2) * Math.tan(10 * RADIANS);
    const { grain } = planStock(arched(rise), {});
    expect(grain.worst.angle / RADIANS).toBeCloseTo(20, 6);
    expect([0, 1000]).toContain(Math.round(grain.worst.at.x));
    // Hankinson with Q/P 0.04 and n = 2: 26 % at 20°; with 0.10, 49 %.
    expect(grain.strength.least).toBeCloseTo(0.26, 2);
    expect(grain.strength.most).toBeCloseTo(0.49, 2);
    expect(grain.better).toBeUndefined();
  });

  test('grain square across, either way round, is one grain', () => {
    const [up, down] = [Math.PI / 2, -Math.PI / 2].map((grain) => planStock(block(300, 40), { grain }));
    for (const plan of [up!, down!]) {
      expect(plan.blank.length).toBeCloseTo(40 + plan.blank.allowances.length, 6);
      expect(plan.grain.worst.angle).toBeCloseTo(Math.PI / 2, 9);
      expect(plan.grain.strength.least).toBeCloseTo(0.04, 9);
    }
  });

  test('the best turn halves the runout of a part that lies askew', () => {
    const bracket = samplePart('wall-shelf-bracket.yaml');
    const best = bestGrainDirection(bracket);
    const worst = worstRunout(bracket, best).angle;
    for (let turn = -60; turn <= 60; turn += 1.5)
      expect(worstRunout(bracket, turn * RADIANS).angle).toBeGreaterThan(worst - 0.25 * RADIANS);
    expect(planStock(bracket, {}).grain.better?.turn).toBe(best);
    expect(planStock(bracket, { grain: best }).grain.better).toBeUndefined();
  });

  test('a turn that saves less than a degree is not offered', () => {
    // A plank drawn askew runs out by just its slant, and turned by that not at all.
    const askew = (degrees: number) => {
      const rise = 500 * Math.tan(degrees * RADIANS);
      return planStock(
        partOf(
          `part: Rail\nunits: mm\nedges:\n  under:\n    - from: [0, 0]\n    - line: [500, ${rise}]\n` +
            `  over:\n    - from: [0, 60]\n    - line: [500, ${rise + 60}]\n`,
        ),
        {},
      ).grain;
    };
    expect(askew(0.9).worst.angle).toBeCloseTo(0.9 * RADIANS, 6);
    expect(askew(0.9).better).toBeUndefined();
    expect(askew(1.6).better?.turn).toBeCloseTo(1.5 * RADIANS, 9);
    expect(askew(-1.6).better?.turn).toBeCloseTo(-1.5 * RADIANS, 9);
  });

  test.each([
    [2, 'good'],
    [8, 'caution'],
    [15, 'weak'],
    [30, 'short'],
  ])('%f° of runout is %s', (degrees, band) => {
    expect(runoutGrade(planStock(plank(''), { grain: degrees * RADIANS }).grain).grade).toBe(band);
  });

  test('wood that an end cuts off does not count', () => {
    const cut = arched(80, 'ends: {left: {miter: 30}, right: {miter: -30}}\n');
    const [left, right] = cut.ends!;
    const edges = edgesAsCut(cut).map(({ pieces }) => pieces);
    const tips = edges.map((pieces) => [pieceStart(pieces[0]!), pieceEnd(pieces.at(-1)!)]);
    tips.forEach(([start, end], i) => {
      expect(distance(start!, left.face[i]!)).toBeLessThan(1e-6);
      expect(distance(end!, right.face[i]!)).toBeLessThan(1e-6);
    });
    expect(tips[0]![0]!.x - tips[1]![0]!.x).toBeGreaterThan(30);
  });
});

describe('the weakest section', () => {
  test('a rectangle has a modulus of h²/6 for each mm of thickness', () => {
    expect(sectionModulus([{ low: -5, high: 55, share: 1 }])).toBeCloseTo(600, 9);
  });

  test('a hole in the middle takes d³/(6h) off the modulus', () => {
    // (h³ − d³)/(6h): a closed form of every mechanics handbook.
    expect(
      sectionModulus([
        { low: 0, high: 60, share: 1 },
        { low: 20, high: 40, share: -1 },
      ]),
    ).toBeCloseTo((60 ** 3 - 20 ** 3) / 360, 9);
  });

  test('a part half as wide as the blank has a quarter of its strength', () => {
    expect(weakestSection(plank(''), 120)?.share).toBeCloseTo(0.25, 9);
  });

  test('a mortise right through weakens more than one half-way in', () => {
    const mortise = (depth: string): number =>
      weakestSection(plank(`joints:\n  - mortise: {at: 250, out: 30, length: 40, width: 20${depth}}\n`), 60)!
        .share;
    expect(mortise('')).toBeCloseTo(1 - (20 / 60) ** 3, 9);
    expect(mortise(', depth: 15')).toBeCloseTo(1 - (20 / 60) ** 3 / 2, 9);
  });

  test('a hole off the middle gives the modulus worked out by hand', () => {
    // 10 mm at 45 of 60: area 50, axis (60·30 − 10·45)/50 = 27; I = 18000 + 60·9 − 10³/12 − 10·18²; over 33.
    const share = weakestSection(plank('joints:\n  - hole: {at: 250, out: 45, diameter: 10}\n'), 60)!;
    expect(share.weakened).toBe(true);
    expect(share.share).toBeCloseTo((18000 + 540 - 1000 / 12 - 3240) / 33 / 600, 6);
  });
});

test('a line pattern has a blank and grain but no weight, and refuses boards', () => {
  const line = samplePart('hall-bench-stretcher.yaml');
  const plan = planStock(line, {});
  expect([plan.amount, plan.nesting, plan.grain.section]).toEqual([undefined, undefined, undefined]);
  expect(plan.layers?.[0]?.lumber.name).toBe('5/4');
  expect(() => planStock(line, { boardWidth: 200 })).toThrow(
    expect.objectContaining({ code: 'nesting.one-edge', key: '--board-width' }),
  );
});
