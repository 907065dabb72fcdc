import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { fairlath, freshFolder, root } from '../run.ts';

const leg = join(root, 'samples/hall-bench-leg.yaml');
const rail = join(root, 'samples/garden-arch-rail.yaml');

/** A computer of its own: an empty folder to work in, and settings that nobody else has touched. */
function bench() {
  const [folder, settings] = [freshFolder(), freshFolder()];
  const file = join(settings, 'fairlath', 'printers.yaml');
  return { folder, settings, file, run: (...args: string[]) => fairlath(args, folder, settings) };
}

/** The exit code of one that runs beside others. */
const setAlone = (settings: string, name: string): Promise<number | null> =>
  new Promise((resolve) => {
    const words = [
      join(root, 'bin/fairlath.js'),
      'printer',
      'set',
      name,
      '--across',
      '99%',
      '--down',
      '100%',
    ];
    const env = { ...process.env, XDG_CONFIG_HOME: settings };
    spawn(process.execPath, words, { env, stdio: 'ignore' }).on('exit', resolve);
  });

describe('fairlath printer', () => {
  test('a printer is measured, listed, and made good on the pattern', () => {
    const { run, file, folder } = bench();
    expect(run('printer', 'list').out).toMatch(/No printer .*printer sheet/);
    expect(run('printer', 'sheet', '--paper', 'letter')).toMatchObject({ code: 0, err: '' });
    expect(existsSync(join(folder, 'printer-sheet.pdf'))).toBe(true);
    expect(run('printer', 'set', 'shop-laser', '--across', '199.4mm', '--down', '200.6mm').code).toBe(0);
    expect(readFileSync(file, 'utf8')).toMatch(
      /^#[\s\S]*shop-laser:\n {2}across: 99\.7 %\n {2}down: 100\.3 %\n/,
    );
    expect(readdirSync(join(file, '..'))).toEqual(['printers.yaml']);
    expect(run('printer', 'list').out).toMatch(/shop-laser +99\.7 % +100\.3 %/);

    const { out } = run('print', leg, '--printer', 'shop-laser', '--json');
    const { sheets, printer, checks } = JSON.parse(out);
    expect(printer).toEqual({ name: 'shop-laser', across: 0.997, down: 1.003 });
    const point = 72 / 25.4;
    // The leg's sheets lie: their width is the paper's long side.
    expect(sheets[0].toPage[0]).toBeCloseTo(point / 1.003, 9);
    expect(sheets[0].toPage[3]).toBeCloseTo(point / 0.997, 9);
    expect(checks[0].tolerance).toBeGreaterThan(0);
  });

  test('its JSON carries the measures and the file', () => {
    const { run, file } = bench();
    const sheet = JSON.parse(
      run('printer', 'sheet', '--paper', 'letter', '--nominal', '7.5in', '--json').out,
    );
    expect(sheet).toMatchObject({ command: 'printer sheet', paper: 'letter', nominal: 190.5, warnings: [] });
    const set = run(
      'printer',
      'set',
      'old one',
      '--across',
      '7.53in',
      '--down',
      '99%',
      '--nominal',
      '7.5in',
      '--json',
    );
    expect(JSON.parse(set.out)).toEqual({
      command: 'printer set',
      file,
      printer: { name: 'old one', across: expect.closeTo(1.004, 9), down: 0.99 },
      warnings: [],
    });
    expect(JSON.parse(run('printer', 'list', '--json').out).printers).toHaveLength(1);
  });

  test('set by twelve processes at once, none is lost', async () => {
    const { settings, file, run } = bench();
    const names = Array.from({ length: 12 }, (_, i) => `shop-${i}`);
    const codes = await Promise.all(names.map((name) => setAlone(settings, name)));
    expect(codes).toEqual(names.map(() => 0));
    const { printers } = JSON.parse(run('printer', 'list', '--json').out) as { printers: { name: string }[] };
    expect(printers.map(({ name }) => name).toSorted()).toEqual(names.toSorted());
    expect(readdirSync(join(file, '..'))).toEqual(['printers.yaml']);
  });

  test('what a killed run has left is waited for, then cleared away', () => {
    const { file, run } = bench();
    mkdirSync(join(file, '..'));
    writeFileSync(join(file, '..', '.printers.yaml.1-left.busy'), '');
    writeFileSync(join(file, '..', 'mine.busy'), '');
    expect(run('printer', 'set', 'a', '--across', '100%', '--down', '100%').code).toBe(0);
    expect(readdirSync(join(file, '..')).toSorted()).toEqual(['mine.busy', 'printers.yaml']);
  });

  test('lines of another length are told with the option to type, as one argument', () => {
    const { run } = bench();
    const { out } = run('printer', 'sheet', '--paper', 'letter', '--nominal', '7 1/2"');
    expect(out).toMatch(/a line of 7 1\/2 in across/);
    expect(out).toContain('--nominal "7 1/2 in"');
    const set = run('printer', 'set', 'a', '--across', '7 1/2in', '--down', '100%', '--nominal', '7 1/2 in');
    expect(set.out).toMatch(/100 % across, 100 % down/);
  });

  test('a broken list is told with its place, and neither passed over nor written over', () => {
    const { run, file } = bench();
    mkdirSync(join(file, '..'));
    writeFileSync(file, '# mine\nshop:\n  across: 99.7 %\n  down: wide\n');
    for (const args of [
      ['printer', 'list'],
      ['printer', 'set', 'other', '--across', '200mm', '--down', '200mm'],
      ['print', leg, '--printer', 'shop'],
    ]) {
      const { code, err } = run(...args);
      expect({ args, code }).toEqual({ args, code: 2 });
      expect(err).toMatch(/printers\.yaml:4:9: shop\.down: "wide" has no number/);
    }
    expect(readFileSync(file, 'utf8')).toBe('# mine\nshop:\n  across: 99.7 %\n  down: wide\n');
  });

  test.skipIf(!existsSync('/proc/self'))(
    'a home that is none, or takes no folders, is told and not waited for',
    () => {
      const env = (home: string) => ({ ...process.env, XDG_CONFIG_HOME: '', HOME: home });
      const set = ['printer', 'set', 'shop-laser', '--across', '99.7%', '--down', '100%'];
      for (const [home, says] of [
        ['', /Set HOME, or XDG_CONFIG_HOME/],
        ['/proc', /\.config: there is no such file/],
      ] as const) {
        const cwd = freshFolder();
        const words = [join(root, 'bin/fairlath.js'), ...set];
        const { status, stderr } = spawnSync(process.execPath, words, {
          cwd,
          env: env(home),
          encoding: 'utf8',
          timeout: 60_000,
        });
        expect(stderr).toMatch(says);
        expect(status).toBe(2);
        expect(readdirSync(cwd)).toEqual([]);
      }
    },
  );

  test('a list that cannot be reached is told, not taken for an empty one', () => {
    const { file, run } = bench();
    mkdirSync(join(file, '..'));
    symlinkSync(file, file);
    const { code, err } = run('printer', 'list');
    expect({ code, err }).toEqual({
      code: 2,
      err: expect.stringMatching(/printers\.yaml: links lead round/),
    });
  });

  test('a settings folder that cannot be one is told', () => {
    const { folder, file } = bench();
    writeFileSync(join(folder, 'settings'), '');
    const answer = fairlath(
      ['printer', 'set', 'a', '--across', '200mm', '--down', '200mm'],
      folder,
      join(folder, 'settings'),
    );
    expect(answer.code).toBe(2);
    expect(answer.err).toMatch(/settings/);
    expect(existsSync(file)).toBe(false);
  });

  test.each([
    [['printer', 'set', 'a', '--across', '180mm', '--down', '200mm'], /--across: .*90 %.*5 %/],
    [['printer', 'set', 'a', '--across', '200mm'], /--down/],
    [['printer', 'set', 'a/b', '--across', '200mm', '--down', '200mm'], /no name for a printer/],
    [
      ['printer', 'set', 'a', '--across', '200mm', '--down', '200mm', '--nominal', '5mm'],
      /--nominal.*too short/,
    ],
    [['printer', 'sheet', '--paper', 'a4', '--nominal', '300mm'], /do not fit on A4/],
    [['printer', 'sheet', '--paper', 'a44'], /Did you mean "a4"/],
    [['printer', 'lst'], /list/],
    [['print', leg, '--printer', 'shp'], /no printer "shp" has been measured.*printer sheet/],
    [['print', leg, '--printer', 'a', '--scale-down', '99%'], /exclude each other/],
    [['print', leg, '--scale-across', '80%'], /--scale-across: .*80 %/],
    [['print', leg, '--half'], /--half: .*off its mirror image at station/],
    [['print', leg, '--margin', '1/2,1/2'], /--margin: .*2 lengths.*top,right,bottom,left/],
    [['print', leg, '--paper', 'roll:24'], /roll:24in or roll:24mm/],
  ])('fairlath %j is answered with a cure', (args, says) => {
    const { run, folder } = bench();
    const { code, out, err } = run(...args);
    expect(err).toMatch(says);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).not.toMatch(/\n\s+at |node:internal|TypeError/);
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe('fairlath print', () => {
  test('--half says so, and gives its centre line', () => {
    const { run } = bench();
    expect(run('print', rail, '--half').out).toMatch(/one half to flip on its centre line/);
    const { half } = JSON.parse(run('print', rail, '--half', '--json').out);
    expect(half.centreLine.map(([x]: [number]) => x)).toEqual([930, 930]);
  });

  test('on a roll it is one page', () => {
    const { run } = bench();
    const { sheets, paper } = JSON.parse(run('print', leg, '--paper', 'roll:24in', '--json').out);
    expect(paper).toBe('roll:24in');
    expect(sheets).toHaveLength(1);
  });
});
