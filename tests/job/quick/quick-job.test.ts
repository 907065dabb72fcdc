import { describe, expect, test } from 'vitest';
import { type QuickOptions, quickJob } from '../../../src/job/quick/quick-job.ts';
import { Faults } from '../../../src/units/fault.ts';
import { drawnEdge } from '../drawn-edge.ts';

/** An inch is 25.4 mm exactly; whole tenths first, so that the division rounds once. */
const inches = (count: number): number => (count * 254) / 10;

test('a batten over 28 in with a rise of 3/4 in has its apex in the middle', () => {
  const job = quickJob({ curve: 'batten', chord: '28', rise: '3/4' });
  expect(job).toEqual({
    part: 'Batten 28", rise 3/4"',
    rule: { unit: 'in', graduation: { numerator: 1, denominator: 32 } },
    quantity: 1,
    joints: [],
    sawAllowance: 0,
    edges: [
      {
        name: 'curve',
        key: '--curve',
        from: { x: 0, y: 0 },
        steps: [
          {
            kind: 'batten',
            key: '--curve',
            to: { x: inches(28), y: 0 },
            by: { apex: { x: inches(14), y: inches(0.75) } },
            ends: ['free', 'free'],
          },
        ],
      },
    ],
  });
});

describe('the step of a quick line', () => {
  const mm = (options: Partial<QuickOptions>) =>
    quickJob({ curve: 'batten', chord: '700', units: 'mm', ...options });

  test.each<[Partial<QuickOptions>, object]>([
    [
      { rise: '20', nail: '300' },
      { kind: 'batten', by: { through: [{ x: 300, y: 20 }] } },
    ],
    [
      { rise: '20', ends: 'free' },
      { kind: 'batten', by: { apex: { x: 350, y: 20 } }, ends: ['free', 'free'] },
    ],
    [{ rise: '20', ends: 'held' }, { ends: ['held', 'held'] }],
    [{ rise: '20', ends: 'held,free' }, { ends: ['held', 'free'] }],
    [{ rise: '20', ends: ' free , held ' }, { ends: ['free', 'held'] }],
    [{ rise: '20', nail: '300', strip: '6 to 3' }, { strip: { from: 6, to: 3 } }],
    [
      { rise: '20', strip: '1/4 in to 1/8"' },
      { by: { apex: { x: 350, y: 20 } }, strip: { from: 6.35, to: 3.175 } },
    ],
    [
      { curve: 'arc', rise: '-20' },
      { kind: 'arc', by: { rise: -20 } },
    ],
    [
      { curve: 'arc', radius: '900' },
      { kind: 'arc', by: { radius: 900 } },
    ],
    [
      { curve: 'arc', rise: '20', nail: '300' },
      { kind: 'arc', by: { through: { x: 300, y: 20 } } },
    ],
    [
      { curve: 'spline', rise: '20' },
      { kind: 'spline', through: [{ x: 350, y: 20 }], ends: ['free', 'free'] },
    ],
    [
      { curve: 'spline', rise: '20', ends: 'held' },
      { kind: 'spline', ends: ['held', 'held'] },
    ],
    [{ curve: 'spline', rise: '20', ends: 'natural', nail: '9' }, { through: [{ x: 9, y: 20 }] }],
    [
      { curve: 'spline', rise: '20', ends: 'natural,held' },
      { kind: 'spline', ends: ['free', 'held'] },
    ],
  ])('%j', (options, step) => {
    expect(drawnEdge(mm(options).edges[0]).steps[0]).toMatchObject(step);
  });

  test.each(['bow', 'ellipse'])('a %s takes only its rise', (curve) => {
    expect(drawnEdge(mm({ curve, rise: '-20' }).edges[0]).steps).toEqual([
      { kind: curve, key: '--curve', to: { x: 700, y: 0 }, rise: -20 },
    ]);
  });

  test('a batten without a taper has no strip', () => {
    expect(drawnEdge(mm({ rise: '20' }).edges[0]).steps[0]).not.toHaveProperty('strip');
  });

  test.each<[Partial<QuickOptions>, string]>([
    [{ rise: '20' }, 'Batten 700 mm, rise 20 mm'],
    [{ rise: '2 cm', nail: ' 300 ' }, 'Batten 700 mm, rise 2 cm at 300 mm'],
    [{ curve: 'arc', radius: '900' }, 'Arc 700 mm, radius 900 mm'],
    [{ curve: 'bow', rise: '20' }, 'Bow 700 mm, rise 20 mm'],
    [{ curve: 'ellipse', rise: '20' }, 'Ellipse 700 mm, rise 20 mm'],
    [{ rise: '3/4"', chord: `2' 4"` }, `Batten 2' 4", rise 3/4"`],
  ])('%j names the part %s', (options, name) => {
    expect(mm(options).part).toBe(name);
  });
});

const faultsOf = (options: QuickOptions) => {
  try {
    quickJob(options);
    return [];
  } catch (error) {
    if (!(error instanceof Faults)) throw error;
    return error.list.map(({ code, key, message }) => ({ code, key, message }));
  }
};

describe('a mistake names its option', () => {
  const sound: QuickOptions = { curve: 'batten', chord: '28', rise: '3/4' };
  const { rise, ...noRise } = sound;

  test.each<[QuickOptions, string, string]>([
    [{ ...sound, curve: 'line' }, '--curve', 'quick.unknown-word'],
    [{ ...sound, units: 'ft' }, '--units', 'quick.unknown-word'],
    [{ ...sound, curve: 'elipse' }, '--curve', 'quick.unknown-word'],
    [{ ...sound, ends: 'hald' }, '--ends', 'quick.unknown-word'],
    [{ ...sound, ends: 'held,' }, '--ends', 'quick.unknown-word'],
    [{ ...sound, ends: 'held,free,held' }, '--ends', 'quick.ends'],
    [{ ...sound, strip: '1/4' }, '--strip', 'quick.strip'],
    [{ ...sound, strip: '1/4, 1/8' }, '--strip', 'quick.strip'],
    [{ ...sound, strip: '1/4 to 3/16 to 1/8' }, '--strip', 'quick.strip'],
    [{ ...sound, strip: '1/4 to 0' }, '--strip', 'length.zero'],
    [{ ...sound, strip: '-1/4 to 1/8' }, '--strip', 'length.negative'],
    [{ ...sound, strip: 'thick to 1/8' }, '--strip', 'length.not-a-number'],
    [{ ...sound, curve: 'spline', ends: 'free' }, '--ends', 'quick.unknown-word'],
    [{ ...sound, curve: 'spline', strip: '1/4 to 1/8' }, '--strip', 'quick.excluded'],
    [{ ...sound, curve: 'arc', strip: '1/4 to 1/8' }, '--strip', 'quick.excluded'],
    [{ ...sound, curve: 'bow', nail: '9' }, '--nail', 'quick.excluded'],
    [{ ...sound, curve: 'bow', ends: 'held' }, '--ends', 'quick.excluded'],
    [{ ...sound, curve: 'ellipse', radius: '30' }, '--radius', 'quick.excluded'],
    [{ ...sound, curve: 'ellipse', strip: '1/4 to 1/8' }, '--strip', 'quick.excluded'],
    [{ ...sound, curve: 'bow', rise: '0' }, '--rise', 'quick.zero'],
    [{ ...noRise, curve: 'ellipse' }, '--rise', 'quick.missing'],
    [{ ...sound, ends: 'natural' }, '--ends', 'quick.unknown-word'],
    [{ ...sound, rise: '0' }, '--rise', 'quick.zero'],
    [{ ...sound, nail: '0' }, '--nail', 'quick.nail'],
    [{ ...sound, nail: '28' }, '--nail', 'quick.nail'],
    [{ ...sound, nail: '-3' }, '--nail', 'quick.nail'],
    [{ ...sound, radius: '30' }, '--radius', 'quick.excluded'],
    [noRise, '--rise', 'quick.missing'],
    [{ ...noRise, curve: 'arc' }, '--rise', 'quick.missing'],
    [{ ...sound, curve: 'arc', ends: 'held' }, '--ends', 'quick.excluded'],
    [{ ...sound, curve: 'arc', radius: '30' }, '--rise', 'quick.excluded'],
    [{ ...noRise, curve: 'arc', radius: '30', nail: '12' }, '--nail', 'quick.excluded'],
    [{ ...noRise, curve: 'arc', radius: '0' }, '--radius', 'quick.zero'],
  ])('%j: %s', (options, key, code) => {
    expect(faultsOf(options)).toMatchObject([{ key, code }]);
  });

  test('an unused option names the curve', () => {
    const message = (curve: string) => faultsOf({ ...sound, curve, strip: '1/4 to 1/8' })[0]?.message;
    expect(message('ellipse')).toContain('an ellipse');
    expect(message('spline')).toContain('a spline');
  });

  test.each(['chord', 'rise', 'nail', 'graduation'])('--%s must be a length', (option) => {
    expect(faultsOf({ ...sound, [option]: 'long' })).toMatchObject([{ key: `--${option}` }]);
  });

  test('all mistakes of a line are reported at once', () => {
    const found = faultsOf({
      curve: 'batten',
      chord: '-28',
      rise: 'high',
      nail: 'x',
      ends: 'hold',
      strip: 'a to 0',
    });
    expect(found.map(({ key }) => key)).toEqual([
      '--chord',
      '--rise',
      '--nail',
      '--ends',
      '--strip',
      '--strip',
    ]);
  });
});
