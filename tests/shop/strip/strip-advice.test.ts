import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { StripOptions } from '../../../src/shop/strip/strip-advice.ts';
import { adviseStrip } from '../../../src/shop/strip/strip-advice.ts';
import { nailCapacity } from '../../../src/shop/strip/strip-nails.ts';
import { safeStrain } from '../../../src/shop/wood/bending.ts';
import { findSpecies } from '../../../src/shop/wood/find-species.ts';
import { SPECIES } from '../../../src/shop/wood/species.ts';
import { Fault } from '../../../src/units/fault.ts';
import { floorToGraduation, graduationMm } from '../../../src/units/graduation.ts';
import { defaultRule, showLength } from '../../../src/units/rule.ts';
import { anyShallowLine, shallowLine } from '../lines.ts';

const species = findSpecies('white oak');
const inMm: StripOptions = { species, rule: defaultRule('mm') };
const inInches: StripOptions = { species, rule: defaultRule('in') };

test('a strip of white oak, 25 × 6 mm, over 1000 mm with 50 mm rise has the strain and forces of a beam', () => {
  const advice = adviseStrip(shallowLine(1000, 50), { ...inMm, width: 25, thickness: 6 });
  // Centre-loaded beam: curvature 12·50/1000² at the nail; P = 48EIy/L³ = 13.284 N at E = 12 300 MPa
  // (AISC Manual, Table 3-23), and 10 % more with the modulus rid of shear deflection.
  expect(advice.strain).toBeCloseTo((6 * 0.0006) / 2, 12);
  expect(advice.worst.radius).toBeCloseTo(1 / 0.0006, 9);
  expect(advice.nails[1]!.force).toBeCloseTo(1.1 * 13.284, 3);
  expect(advice.verdict).toBe('safe');
  // 2R × half of 104.8/12300: 14.2 mm
  expect(advice.maxThickness).toBeCloseTo(14.2, 2);
  expect(advice.maxThicknessOnRule).toBe(14);
  expect(advice.cutLength).toBe(1000 + 2 * 200);
  expect(advice.tapered).toBe(false);
});

test('a strip over the safe thickness is risky, and a thicker one breaks', () => {
  const verdict = (thickness: number) => adviseStrip(shallowLine(1000, 50), { ...inMm, thickness }).verdict;
  // Safe up to 14.2 mm, broken from twice that.
  expect([14, 14.5, 28, 28.5].map(verdict)).toEqual(['safe', 'risky', 'risky', 'breaks']);
});

test('a strip and nails without given sizes have sizes on the maker’s rule', () => {
  const line = shallowLine(863.6, 36);
  const [metric, inches] = [adviseStrip(line, inMm), adviseStrip(line, inInches)];
  const shown = ({ rule }: StripOptions, ...lengths: number[]) => lengths.map((mm) => showLength(mm, rule));
  expect(shown(inMm, metric.width, metric.nailDiameter, metric.overhang)).toEqual([
    '20 mm',
    '2.5 mm',
    '200 mm',
  ]);
  expect(shown(inInches, inches.width, inches.nailDiameter, inches.overhang)).toEqual([
    '3/4"',
    '3/32"',
    '8"',
  ]);
  for (const [{ thickness }, { rule }] of [
    [metric, inMm],
    [inches, inInches],
  ] as const)
    expect(floorToGraduation(thickness, rule)).toBe(thickness);
});

test('the cut length is rounded up', () => {
  // 1001 + 2·200 mm; 863.6 + 2·203.2 mm = 50 in, 0.1 mm more is 51 in
  expect(adviseStrip({ ...shallowLine(1000, 50), length: 1001 }, inMm).cutLength).toBe(1410);
  expect(adviseStrip({ ...shallowLine(863.6, 36), length: 863.7 }, inInches).cutLength).toBeCloseTo(
    51 * 25.4,
    9,
  );
});

const anyAsk: fc.Arbitrary<StripOptions> = fc.record({
  species: fc.constantFrom(...SPECIES),
  rule: fc.constantFrom(defaultRule('mm'), defaultRule('in')),
});

test('property: the chosen strip is safe where the thinnest is, within the usual thickness, and its nails hold it', () => {
  fc.assert(
    fc.property(anyShallowLine(), anyAsk, (line, ask) => {
      const advice = adviseStrip(line, ask);
      const { thickness, verdict, maxThickness, nails, nailCapacity, minThickness: least } = advice;
      expect(thickness).toBeGreaterThanOrEqual(least);
      expect(thickness).toBeLessThanOrEqual(Math.max(12.7, least));
      expect(verdict === 'safe').toBe(maxThickness >= least);
      expect(advice.others === undefined).toBe(verdict === 'safe');
      if (thickness > least)
        for (const { force } of nails) expect(force).toBeLessThanOrEqual(nailCapacity * (1 + 1e-12));
    }),
  );
});

test('property: the thickest strip on the rule is safe to take, and one graduation more is not', () => {
  fc.assert(
    fc.property(anyShallowLine(), anyAsk, (line, ask) => {
      const { maxThicknessOnRule } = adviseStrip(line, ask);
      const taken = (thickness: number) => adviseStrip(line, { ...ask, thickness });
      if (maxThicknessOnRule > 0) expect(taken(maxThicknessOnRule).verdict).toBe('safe');
      const thicker = taken(maxThicknessOnRule + graduationMm(ask.rule));
      // Not by the verdict: the graduation may lie on the limit but for rounding.
      expect(thicker.strain).toBeGreaterThan(safeStrain(ask.species) * (1 - 1e-9));
    }),
  );
});

test('property: a wider strip is strained the same and presses harder in proportion', () => {
  fc.assert(
    fc.property(anyShallowLine(), fc.double({ min: 0.2, max: 5, noNaN: true }), (line, k) => {
      const one = adviseStrip(line, { ...inMm, thickness: 5, width: 20 });
      const other = adviseStrip(line, { ...inMm, thickness: 5, width: 20 * k });
      expect(other.strain).toBe(one.strain);
      one.nails.forEach(({ force }, i) => {
        expect(Math.abs(other.nails[i]!.force / (k * force) - 1)).toBeLessThan(1e-13);
      });
    }),
  );
});

test('a curve too tight for any wood that can be made gets figures, and other materials', () => {
  // R = 40 mm allows 0.34 mm of white oak
  const advice = adviseStrip(shallowLine(120, 30), inMm);
  expect(advice.maxThicknessOnRule).toBe(0);
  expect(advice.maxThickness).toBeCloseTo(0.34, 2);
  expect(advice.thickness).toBe(1.5);
  expect(advice.verdict).toBe('breaks');
  // 2R × 0.5 %; acrylic of 0.8 mm is not sold.
  expect(advice.others).toEqual([
    { material: 'spring steel', maxThickness: expect.closeTo(0.4, 9), safeStrain: 0.005 },
  ]);
});

const RADII = [20, 24, 60, 74, 76, 100, 150, 170, 180, 300, 1000, 5000];

test.each(RADII)('at a radius of %d mm wood, acrylic or steel is offered by its own limit', (radius) => {
  const bend = { curvature: 1 / radius, share: 1, at: { x: 0, y: 0 } };
  const { others, verdict, maxThickness } = adviseStrip(
    { ...shallowLine(1000, 50), pins: [], worst: bend },
    inMm,
  );
  // 2R × the safe strain against the thinnest of each: 1.5 mm, 1.5 mm and 0.25 mm.
  const wood = 2 * radius * safeStrain(species) >= 1.5;
  expect(verdict === 'safe').toBe(wood);
  expect(maxThickness).toBeCloseTo(2 * radius * safeStrain(species), 9);
  const offered = [radius >= 25 && 'spring steel', radius >= 75 && 'acrylic'].filter((name) => name);
  expect(others?.map(({ material }) => material)).toEqual(wood ? undefined : offered);
});

test('a strip that a maker has is judged as it is, thinner than wood is made or not', () => {
  const veneer = adviseStrip(shallowLine(120, 30), { ...inMm, thickness: 0.3 });
  expect(veneer).toMatchObject({ verdict: 'safe', thickness: 0.3 });
  expect(veneer.nails).toHaveLength(3);
});

test('other materials are no thicker than their nails hold', () => {
  const line = shallowLine(80, 8);
  const steel = (nailDiameter: number) => adviseStrip(line, { ...inMm, width: 60, nailDiameter }).others?.[0];
  expect(steel(3)!.maxThickness).toBeGreaterThan(steel(2.5)!.maxThickness);
  const { maxThickness } = steel(2.5)!;
  const [, nail] = line.pins;
  expect(((205_000 * 60 * maxThickness ** 3) / 12) * nail!.reaction).toBeLessThanOrEqual(
    nailCapacity(2.5, 60) * (1 + 1e-9),
  );
});

test('a line without pins has a strip without nails', () => {
  const advice = adviseStrip({ ...shallowLine(1000, 50), pins: [] }, inMm);
  expect(advice.nails).toEqual([]);
  expect(advice.thickness).toBe(12);
});

test('a tapered strip has the strain of its worst place', () => {
  const line = shallowLine(1000, 50);
  const advice = adviseStrip(
    {
      ...line,
      worst: { curvature: 0.0006 * 0.75, share: 0.75, at: line.pins[1]!.at },
      pins: line.pins.map((pin, i) => ({ ...pin, share: 1 - i / 4 })),
    },
    { ...inMm, thickness: 8 },
  );
  expect(advice.tapered).toBe(true);
  expect(advice.strain).toBeCloseTo((8 * 0.75 * 0.0006) / 2, 12);
  expect(advice.worst.radius).toBeCloseTo(1 / 0.0006, 9);
});

test.each([
  ['strip.thickness', { thickness: 0 }],
  ['strip.thickness', { thickness: Number.NaN }],
  ['strip.width', { width: -20 }],
  ['strip.width', { width: Number.POSITIVE_INFINITY }],
  ['strip.nail', { nailDiameter: 0 }],
])('a size that is not over 0 gives the fault %s', (code, sizes) => {
  expect(() => adviseStrip(shallowLine(1000, 50), { ...inMm, ...sizes })).toThrow(
    expect.objectContaining({ code }),
  );
});

test('a straight line is refused', () => {
  const { worst: _, ...straight } = shallowLine(1000, 50);
  expect(() => adviseStrip(straight, inMm)).toThrow(Fault);
});

test('the advice survives a round trip through JSON', () => {
  const advice = adviseStrip(shallowLine(1000, 50), inMm);
  expect(JSON.parse(JSON.stringify(advice))).toEqual(advice);
});
