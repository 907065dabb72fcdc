import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { fairlath, freshFolder, LEG, root } from '../run.ts';
import { expectWords, type Mistake, testMistakes } from '../words.ts';

const leg = join(root, LEG);
const LINES = ['--across', '200mm', '--down', '200mm'];

const MISTAKES: readonly Mistake[] = [
  [['printer', 'set', 'a', '--across', '180mm', '--down', '200mm'], 'printer.scale', '--across'],
  [['printer', 'set', 'a', '--across', '200mm'], 'commander.missingMandatoryOptionValue'],
  [['printer', 'set', 'a/b', ...LINES], 'printer.name', 'NAME'],
  [['printer', 'set', 'a', ...LINES, '--nominal', '5mm'], 'printer.nominal', '--nominal'],
  [['printer', 'sheet', '--paper', 'a4', '--nominal', '300mm'], 'printer.no-room', '--nominal'],
  [['printer', 'sheet', '--nominal', '10000000'], 'printer.nominal', '--nominal'],
  [['printer', 'sheet', '--paper', 'a44'], 'paper.unknown', '--paper'],
  [['printer', 'sheet', '-o', 'sheet.png'], 'file.other-kind'],
  [['printer', 'lst'], 'commander.unknownCommand'],
];

/** A computer of its own: an empty folder to work in, and settings that nobody else has touched. */
function computer() {
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
  test('the printer sheet is on the paper of a job in inches', () => {
    const { run } = computer();
    const sheet = JSON.parse(run('printer', 'sheet', '--json').out);
    const print = JSON.parse(
      run('print', '--curve', 'arc', '--chord', '8', '--rise', '1', '-o', 'arc.pdf', '--json').out,
    );
    expect(sheet.paper).toBe('letter');
    expect(print.paper).toBe(sheet.paper);
  });

  test('a printer is measured, listed, and corrected on the pattern', () => {
    const { run, file, folder } = computer();
    expect(JSON.parse(run('printer', 'list', '--json').out).printers).toEqual([]);
    expect(run('printer', 'sheet', '--paper', 'letter')).toMatchObject({ code: 0, err: '' });
    expect(existsSync(join(folder, 'printer-sheet.pdf'))).toBe(true);
    expect(run('printer', 'set', 'shop-laser', '--across', '199.4mm', '--down', '200.6mm').code).toBe(0);
    expect(readFileSync(file, 'utf8')).toMatch(
      /^#[\s\S]*shop-laser:\n {2}across: 99\.7%\n {2}down: 100\.3%\n/,
    );
    expect(readdirSync(join(file, '..'))).toEqual(['printers.yaml']);
    const listed = JSON.parse(run('printer', 'list', '--json').out);
    expect(listed.printers).toEqual([{ name: 'shop-laser', across: 0.997, down: 1.003 }]);

    const { out } = run('print', leg, '--printer', 'shop-laser', '--json');
    const { sheets, printer, checks } = JSON.parse(out);
    expect(printer).toEqual({ name: 'shop-laser', across: 0.997, down: 1.003 });
    const point = 72 / 25.4;
    // The leg's sheets lie: their width is the paper's long side.
    expect(sheets[0].toPage[0]).toBeCloseTo(point / 1.003, 9);
    expect(sheets[0].toPage[3]).toBeCloseTo(point / 0.997, 9);
    expect(checks[0].tolerance).toBeGreaterThan(0);
  });

  test('its JSON has the measures and the file', () => {
    const { run, file } = computer();
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

  test('twelve processes set a printer at once, and none is lost', async () => {
    const { settings, file, run } = computer();
    const names = Array.from({ length: 12 }, (_, i) => `shop-${i}`);
    const codes = await Promise.all(names.map((name) => setAlone(settings, name)));
    expect(codes).toEqual(names.map(() => 0));
    const { printers } = JSON.parse(run('printer', 'list', '--json').out) as { printers: { name: string }[] };
    expect(printers.map(({ name }) => name).toSorted()).toEqual(names.toSorted());
    expect(readdirSync(join(file, '..'))).toEqual(['printers.yaml']);
  });

  test('a lock left by a killed run is waited for, then removed', () => {
    const { file, run } = computer();
    mkdirSync(join(file, '..'));
    writeFileSync(join(file, '..', '.printers.yaml.1-left.busy'), '');
    writeFileSync(join(file, '..', 'mine.busy'), '');
    expect(run('printer', 'set', 'a', '--across', '100%', '--down', '100%').code).toBe(0);
    expect(readdirSync(join(file, '..')).toSorted()).toEqual(['mine.busy', 'printers.yaml']);
  });

  test('takes lines of another length by --nominal', () => {
    const set = ['printer', 'set', 'a', '--across', '7 1/2in', '--down', '100%', '--nominal', '7 1/2 in'];
    const { printer } = JSON.parse(computer().run(...set, '--json').out);
    expect(printer).toEqual({ name: 'a', across: expect.closeTo(1, 12), down: 1 });
  });

  test('a list with a mistake is refused at its place, and neither ignored nor written over', () => {
    const { run, file } = computer();
    mkdirSync(join(file, '..'));
    writeFileSync(file, '# mine\nshop:\n  across: 99.7 %\n  down: wide\n');
    for (const args of [
      ['printer', 'list'],
      ['printer', 'set', 'other', '--across', '200mm', '--down', '200mm'],
      ['print', leg, '--printer', 'shop'],
    ]) {
      const { code, err, faults } = run(...args);
      expect({ args, code }).toEqual({ args, code: 2 });
      expect(faults).toEqual([{ code: 'length.not-a-number', key: 'shop.down' }]);
      expect(err).toMatch(/printers\.yaml:4:9: /);
    }
    expect(readFileSync(file, 'utf8')).toBe('# mine\nshop:\n  across: 99.7 %\n  down: wide\n');
  });

  test.skipIf(!existsSync('/proc/self'))(
    'a home that is none, or takes no folders, is refused at once',
    () => {
      const env = (home: string) => ({ ...process.env, XDG_CONFIG_HOME: '', HOME: home });
      const set = ['printer', 'set', 'shop-laser', '--across', '99.7%', '--down', '100%'];
      for (const [home, place] of [
        ['', /^error: .*HOME/],
        ['/proc', /^error: .*\.config: /],
      ] as const) {
        const cwd = freshFolder();
        const words = [join(root, 'bin/fairlath.js'), ...set];
        const { status, stderr } = spawnSync(process.execPath, words, {
          cwd,
          env: env(home),
          encoding: 'utf8',
          timeout: 60_000,
        });
        expect(stderr).toMatch(place);
        expect(status).toBe(2);
        expect(readdirSync(cwd)).toEqual([]);
      }
    },
  );

  test('a list behind a circle of links is refused, not taken for an empty one', () => {
    const { file, run } = computer();
    mkdirSync(join(file, '..'));
    symlinkSync(file, file);
    expect(run('printer', 'list')).toMatchObject({ code: 2, out: '', faults: [{ code: 'file.failed' }] });
  });

  test('a settings folder that is a file is refused', () => {
    const { folder, file } = computer();
    writeFileSync(join(folder, 'settings'), '');
    const answer = fairlath(
      ['printer', 'set', 'a', '--across', '200mm', '--down', '200mm'],
      folder,
      join(folder, 'settings'),
    );
    expect(answer).toMatchObject({ code: 2, faults: [{ code: 'file.failed' }] });
    expect(answer.err).toContain(join(folder, 'settings'));
    expect(existsSync(file)).toBe(false);
  });

  testMistakes(MISTAKES);

  test('its words are the reviewed ones', () =>
    expectWords('printer', [
      ...[[], ['sheet'], ['set'], ['list']].map((words) => ['printer', ...words, '--help']),
      ['printer', 'list'],
      ['printer', 'sheet', '--paper', 'letter'],
      ['printer', 'sheet', '--paper', 'letter', '--nominal', '7 1/2"'],
      ['printer', 'set', 'shop-laser', '--across', '199.4mm', '--down', '200.6mm'],
      ['printer', 'set', 'old one', '--across', '7.53in', '--down', '99%', '--nominal', '7.5in'],
      ['printer', 'list'],
      ['print', LEG, '--printer', 'shop-laser'],
      ['print', LEG, '--printer', 'shop-lazer'],
      ...MISTAKES.map(([args]) => args),
    ]));
});
