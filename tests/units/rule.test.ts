import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { showFine } from '../../src/units/number-format.ts';
import { parseLength } from '../../src/units/parse-length.ts';
import {
  defaultRule,
  parseGraduation,
  type Rule,
  readOnRule,
  showLength,
  showOnRule,
  showSize,
} from '../../src/units/rule.ts';
import { MM_PER_INCH, type Unit } from '../../src/units/unit.ts';

const inches = defaultRule('in');
const millimetres = defaultRule('mm');
const quarterInch = parseGraduation('1/4', 'in');

/** The neighbouring double: the least step up or down from a positive length. */
const nextUp = (mm: number): number => mm + mm * Number.EPSILON;
const nextDown = (mm: number): number => mm - mm * Number.EPSILON;

describe('a length on a rule', () => {
  test.each([
    ['12 11/32', parseLength('12 11/32', 'in')],
    ['1/4', 6.35],
    ['1', 25.4],
    ['0', 0],
    ['0', -0],
    ['0', -1e-9],
    ['−3/4', -19.05],
    ['−1 3/4', -44.45],
    ['2 1/16', 52.3875],
  ])('1/32 in shows %s', (text, mm) => {
    expect(showOnRule(mm, inches)).toBe(text);
    expect(Object.is(readOnRule(mm, inches).mark, -0)).toBe(false);
  });

  test.each([
    ['312.5', 312.5],
    ['312', 312],
    ['−0.5', -0.5],
    ['0', 0],
    ['1000000000000000000000', 1e21],
  ])('half millimeters show %s', (text, mm) => {
    expect(showOnRule(mm, millimetres)).toBe(text);
  });

  test('a rule of 0.05 mm shows 0.25', () => {
    expect(showOnRule(0.25, parseGraduation('0.05', 'mm'))).toBe('0.25');
  });

  test('a rule of tenths of an inch shows decimals, one of twelfths fractions', () => {
    expect(showOnRule(12.3 * MM_PER_INCH, parseGraduation('0.1', 'in'))).toBe('12.3');
    expect(showOnRule(parseLength('3 5/12', 'in'), parseGraduation('1/12', 'in'))).toBe('3 5/12');
  });

  test('the unit comes before full or scant', () => {
    const mark = parseLength('12 11/32', 'in');
    expect(showLength(mark + 0.3, inches)).toBe('12 11/32" full');
    expect(showLength(mark - 0.3, inches)).toBe('12 11/32" scant');
    expect(showLength(312.5, millimetres)).toBe('312.5 mm');
    expect(showOnRule(mark + 0.3, inches)).toBe('12 11/32 full');
  });

  test('a length that is not finite throws a TypeError', () => {
    for (const mm of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      expect(() => readOnRule(mm, inches)).toThrow(TypeError);
      expect(() => showLength(mm, millimetres)).toThrow(TypeError);
    }
  });
});

describe('full and scant', () => {
  test.each(['in', 'mm'] as const)('begin beyond a quarter of a graduation (%s)', (unit) => {
    const rule: Rule = { unit, graduation: { numerator: 1, denominator: 4 } };
    const over = parseLength('3 5/16', unit);
    const under = parseLength('3 3/16', unit);
    expect(readOnRule(over, rule)).toMatchObject({ mark: parseLength('3 1/4', unit), hair: '' });
    expect(readOnRule(nextUp(over), rule).hair).toBe('full');
    expect(readOnRule(under, rule)).toMatchObject({ mark: parseLength('3 1/4', unit), hair: '' });
    expect(readOnRule(nextDown(under), rule).hair).toBe('scant');
  });

  test('a length typed at exactly a quarter past is never full, whatever its double', () => {
    const thirtySeconds = fc.nat({ max: 5000 });
    fc.assert(
      fc.property(thirtySeconds, (count) => {
        const quarterPast = parseLength(`${4 * count + 1}/128`, 'in');
        expect(readOnRule(quarterPast, inches)).toMatchObject({ hair: '' });
      }),
    );
  });

  test('halfway rounds away from 0 and shows scant', () => {
    const halfway = parseLength('3 3/8', 'in');
    expect(showOnRule(halfway, quarterInch)).toBe('3 1/2 scant');
    expect(showOnRule(nextDown(halfway), quarterInch)).toBe('3 1/4 full');
    expect(showOnRule(-halfway, quarterInch)).toBe('−3 1/2 scant');
  });

  test('are the same for negative and positive lengths', () => {
    expect(showOnRule(19.05 + 0.3, inches)).toBe('3/4 full');
    expect(showOnRule(-19.05 - 0.3, inches)).toBe('−3/4 full');
  });

  test('close to 0 they show the side', () => {
    expect(showOnRule(0.3, inches)).toBe('0 full');
    expect(showOnRule(-0.3, inches)).toBe('0 scant');
  });
});

const GRADUATIONS: readonly (readonly [string, Unit])[] = [
  ['1/32', 'in'],
  ['1/64', 'in'],
  ['3/128', 'in'],
  ['1', 'in'],
  ['0.1', 'in'],
  ['0.02', 'in'],
  ['1/12', 'in'],
  ['0.5', 'mm'],
  ['0.05', 'mm'],
  ['1', 'mm'],
  ['25', 'mm'],
  ['1/3', 'mm'],
];
const rules = fc.constantFrom(...GRADUATIONS.map(([text, unit]) => parseGraduation(text, unit)));
const lengths = fc.double({ min: -9e5, max: 9e5, noNaN: true, noDefaultInfinity: true });

const graduationMm = ({ unit, graduation: { numerator, denominator } }: Rule): number =>
  (numerator / denominator) * (unit === 'in' ? MM_PER_INCH : 1);

test('property: a length shown on a rule parses to its mark, half a graduation off at most', () => {
  fc.assert(
    fc.property(lengths, rules, (mm, rule) => {
      const { mark, text } = readOnRule(mm, rule);
      expect(parseLength(text, rule.unit)).toBe(mark);
      // The mark and the difference are each rounded once, at the size of the length.
      const rounding = 2 * Number.EPSILON * Math.abs(mm);
      expect(Math.abs(mark - mm)).toBeLessThanOrEqual(graduationMm(rule) / 2 + rounding);
      expect(text).not.toMatch(/e|^-0$/);
    }),
    { numRuns: 2000 },
  );
});

test('every multiple of the graduation is shown and parsed without a change', () => {
  fc.assert(
    fc.property(fc.integer({ min: -30_000, max: 30_000 }), rules, (count, rule) => {
      const { numerator, denominator } = rule.graduation;
      const sign = count < 0 ? '-' : '';
      const mm = parseLength(`${sign}${Math.abs(count) * numerator}/${denominator}`, rule.unit);
      expect(readOnRule(mm, rule)).toMatchObject({ mark: mm, hair: '' });
      expect(parseLength(showLength(mm, rule), rule.unit)).toBe(mm);
    }),
    { numRuns: 2000 },
  );
});

test('fractions are in lowest terms and less than 1', () => {
  fc.assert(
    fc.property(lengths, (mm) => {
      const [, above, below] = /(\d+)\/(\d+)$/.exec(readOnRule(mm, inches).text) ?? [];
      if (above === undefined) return;
      expect(Number(above) % 2).toBe(1);
      expect(Number(above)).toBeLessThan(Number(below));
    }),
  );
});

test('property: any finite number can be shown', () => {
  const finite = fc.double({ noNaN: true, noDefaultInfinity: true });
  fc.assert(
    fc.property(finite, rules, (mm, rule) => {
      expect(showLength(mm, rule)).toMatch(/^−?\d+(\.\d+|\/\d+| \d+\/\d+)?("| mm)( full| scant)?$/);
    }),
  );
});

describe('the graduation of a rule', () => {
  test.each([
    ['1/32', 'in', 1, 32],
    ['1/64 in', 'in', 1, 64],
    ['2/32"', 'in', 1, 16],
    ['0.5', 'in', 1, 2],
    ['1/128', 'in', 1, 128],
    ['1', 'in', 1, 1],
    ['0.5', 'mm', 1, 2],
    ['0.5 mm', 'mm', 1, 2],
    ['0.05', 'mm', 1, 20],
    ['1', 'mm', 1, 1],
    ['25', 'mm', 25, 1],
  ] as const)('%s (%s)', (text, unit, numerator, denominator) => {
    expect(parseGraduation(text, unit)).toEqual({ unit, graduation: { numerator, denominator } });
  });

  test('is 1/32 in or half a millimeter by default', () => {
    expect(inches).toEqual(parseGraduation('1/32', 'in'));
    expect(millimetres).toEqual(parseGraduation('1/2', 'mm'));
  });

  test.each([
    ['graduation.empty', '', 'in'],
    ['graduation.not-a-number', 'fine', 'in'],
    ['graduation.zero-denominator', '1/0', 'in'],
    ['graduation.ambiguous', '1/32 1/64', 'in'],
    ['graduation.ambiguous', '1/32 in 2 in', 'in'],
    ['graduation.other-unit', '0.5 mm', 'in'],
    ['graduation.other-unit', '1/32"', 'mm'],
    ['graduation.other-unit', '1 cm', 'mm'],
    ['graduation.zero', '0', 'in'],
    ['graduation.negative', '-1/32', 'in'],
    ['graduation.too-coarse', '1 1/2', 'in'],
    ['graduation.too-coarse', '25.1', 'mm'],
    ['graduation.too-fine', '1/129', 'in'],
    ['graduation.too-fine', '0.049', 'mm'],
    ['graduation.not-on-a-rule', '0.12345', 'mm'],
  ] as const)('%s: %j', (code, text, unit) => {
    expect(() => parseGraduation(text, unit)).toThrow(expect.objectContaining({ code }));
    expect(() => parseGraduation(text, unit)).toThrow(/(Write|Use) /);
  });
});

test('showSize shows the rule reading on a mark and decimals elsewhere', () => {
  const [inches, millimetres] = [defaultRule('in'), defaultRule('mm')];
  expect(showSize(MM_PER_INCH / 2, inches)).toBe('1/2"');
  expect(showSize(12.7, millimetres)).toBe('12.7 mm');
  expect(showSize(17, millimetres)).toBe('17 mm');
  // 6 / 25.4 in, to a thousandth
  expect(showSize(6, inches)).toBe('0.236"');
  expect(showFine(2.15, 'mm')).toBe('2.15 mm');
});
