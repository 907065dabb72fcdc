import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { RAIL as MITERED_RAIL, LEG as SPLAYED_LEG } from '../../export/joinery.ts';
import { SAMPLES } from '../../part/jobs.ts';
import { fairlath, folderWith, freshFolder, LEG } from '../run.ts';
import { expectWords, type Mistake, testMistakes } from '../words.ts';

const QUICK = ['show', '--curve', 'batten', '--chord', '28'];
const json = (args: readonly string[], folder?: string) =>
  JSON.parse(fairlath([...args, '--json'], folder).out);

const MISTAKES: readonly Mistake[] = [
  [['show', 'nowhere.yaml'], 'file.failed'],
  [['show', '.'], 'file.failed'],
  [['show'], 'command.no-job'],
  [['show', LEG, '--curve', 'arc'], 'command.two-jobs'],
  // The second half of a length that was typed without quotes is taken for a job file.
  [['show', '--curve', 'arc', '--chord', '28', '3/4', '--rise', '2'], 'command.unquoted'],
  [QUICK, 'quick.missing', '--rise'],
  [[...QUICK, '--rise', '1 1'], 'length.ambiguous', '--rise'],
  [[...QUICK, '--rise', '25'], 'batten.too-high', '--curve'],
  [[...QUICK, '--rise', '25', '--nail', '10'], 'batten.too-high', '--curve'],
  [[...QUICK.with(2, 'battn'), '--rise', '1'], 'quick.unknown-word', '--curve'],
  [['show', LEG, '--jason'], 'commander.unknownOption'],
  [['show', LEG, 'more.yaml'], 'commander.excessArguments'],
  [['show', LEG, '--picture', 'leg.png'], 'file.other-kind'],
  [[...QUICK, '--rise', '1', '--nail', '8', '--nail', '20'], 'command.repeated', '--nail'],
  [[LEG], 'command.missing'],
];

describe('fairlath show', () => {
  test.each(SAMPLES)('gives the runs of the sample %s in millimeters', (name) => {
    const { edges, units } = json(['show', `samples/${name}`]);
    expect(units).toBe('mm');
    for (const { runs } of edges)
      for (const { from, to, length, endAnglesDeg } of runs) {
        expect(length).toBeGreaterThanOrEqual(Math.hypot(to[0] - from[0], to[1] - from[1]) - 1e-9);
        expect(endAnglesDeg).toHaveLength(2);
      }
  });

  test('a quick arc of chord 600 and rise 75 has radius 637.5 and length 624.6956', () => {
    // Euclid III.35, as in the tests of the arc itself.
    const { edges } = json(['show', '--curve', 'arc', '--chord', '600', '--rise', '75', '--units', 'mm']);
    expect(edges[0].runs[0].minRadius.radius).toBeCloseTo(637.5, 6);
    expect(edges[0].length).toBeCloseTo(624.6956, 4);
  });

  test('a quick batten has its apex apart from the nail, in the longer span', () => {
    const [run] = json([...QUICK, '--rise', '3/4', '--nail', '12']).edges[0].runs;
    expect(run.pins[1]).toEqual([304.8, 19.05]);
    expect(run.apex.station).toBeGreaterThan(12.5 * 25.4);
    expect(run.apex.rise).toBeGreaterThan(0.75 * 25.4);
  });

  test('a negative rise is a length, not an option', () => {
    expect(fairlath([...QUICK, '--rise', '-3/4']).code).toBe(0);
  });

  test('a shallow arc of the same rise is 2/27 of the rise away from the batten', () => {
    const { edges } = json(['show', '--curve', 'batten', '--chord', '1000', '--rise', '1', '--units', 'mm']);
    const arc = edges[0].runs[0].apart.find(({ kind }: { kind: string }) => kind === 'arc');
    // Shallow: the arc is 4x(1 − x), the beam 3x − 4x³ of the rise. They differ most where 4x³ − 4x² + x does:
    // at x = 1/6, by 2/27.
    expect(arc.worst).toBeCloseTo(2 / 27, 4);
    expect(Math.min(arc.station, 1000 - arc.station)).toBeCloseTo(1000 / 6, 0);
  });

  test('remarks on the fairness of each edge', () => {
    const codes = (sample: string) =>
      json(['show', sample]).edges.map(({ fairness }: { fairness: { remarks: { code: string }[] } }) =>
        fairness.remarks.map(({ code }) => code),
      );
    expect(codes('samples/hall-bench-stretcher.yaml')[0]).toEqual(['fairness.corner', 'fairness.corner']);
    expect(codes(LEG)[1]).toEqual(['fairness.fair']);
  });

  test('gives ends and joints in millimeters and degrees', () => {
    const folder = folderWith({ 'leg.yaml': SPLAYED_LEG });
    const { ends, joints } = json(['show', 'leg.yaml'], folder);
    expect(ends.map(({ side }: { side: string }) => side)).toEqual(['left', 'right']);
    expect(ends[1]).toMatchObject({ rakeDeg: expect.closeTo(6, 9), splayDeg: expect.closeTo(4, 9) });
    expect(ends[1]).toMatchObject({ leanDeg: expect.closeTo(7.2, 1), sightDeg: expect.closeTo(33.6, 1) });
    expect(ends[1].longPoint).toMatchObject({ at: [expect.closeTo(34 * 25.4, 6), 0], on: 'back' });
    expect(ends[1].trueShape).toHaveLength(4);
    expect(joints).toHaveLength(8);
    expect(joints[2]).toMatchObject({
      number: 3,
      kind: 'hole',
      at: [expect.closeTo(28 * 25.4, 6), expect.closeTo(1.5 * 25.4, 6)],
      lean: { leanDeg: expect.closeTo(2, 9), toward: 'left' },
      label: 'stretcher',
    });
  });

  test('writes a picture, and replaces only one that fairlath drew', () => {
    const folder = folderWith({ 'splayed.yaml': SPLAYED_LEG });
    const show = (job: string) => fairlath(['show', job, '--picture', 'leg.svg'], folder);
    expect(show('splayed.yaml').code).toBe(0);
    const first = readFileSync(join(folder, 'leg.svg'), 'utf8');
    expect(first).toMatch(/^<svg [^>]*width="260mm"/);
    expect(show('splayed.yaml').code).toBe(0);
    expect(readFileSync(join(folder, 'leg.svg'), 'utf8')).toBe(first);
    writeFileSync(join(folder, 'leg.svg'), '<svg>a drawing of someone else</svg>');
    expect(show('splayed.yaml')).toMatchObject({ code: 2, faults: [{ code: 'file.exists' }] });
    expect(readFileSync(join(folder, 'leg.svg'), 'utf8')).toContain('someone else');
  });

  testMistakes(MISTAKES);

  test('a word that is no command gets the list of commands as its cure', () => {
    expect(fairlath(['shwo', LEG], freshFolder())).toMatchObject({
      code: 2,
      out: '',
      faults: [{ code: 'commander.unknownCommand' }],
    });
    expect(existsSync('shwo')).toBe(false);
  });

  test('its words are the reviewed ones', () =>
    expectWords(
      'show',
      [
        ['show', '--help'],
        ...SAMPLES.map((name) => ['show', `samples/${name}`]),
        ['show', 'splayed-leg.yaml'],
        ['show', 'mitered-rail.yaml'],
        [...QUICK, '--rise', '3/4', '--nail', '12'],
        ...MISTAKES.map(([args]) => args),
      ],
      { 'splayed-leg.yaml': SPLAYED_LEG, 'mitered-rail.yaml': MITERED_RAIL },
    ));
});

describe('the words of show for joinery', () => {
  const folder = folderWith({ 'leg.yaml': SPLAYED_LEG, 'rail.yaml': MITERED_RAIL });

  test('name the angle of the part its bevel, and what the saw is set to the blade tilt', () => {
    const [show, saw] = ['show', 'saw'].map((command) => fairlath([command, 'leg.yaml'], folder).out);
    expect(show).toMatch(/miter \S+, bevel \S+;/);
    expect(show).not.toMatch(/blade tilt/);
    expect(saw).toMatch(/^ {2}angles +miter \S+, bevel \S+$/m);
    expect(saw).toMatch(/^ {2}blade tilt +\S+ to the (left|right)/m);
  });
});
