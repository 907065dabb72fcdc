import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { fairlath, freshFolder, root } from '../cli/run.ts';

const bin = join(root, 'bin/fairlath.js');
const leg = join(root, 'samples/hall-bench-leg.yaml');
const shell = (script: string, cwd: string) =>
  spawnSync('bash', ['-c', script, 'bash', process.execPath, bin, leg], { cwd, encoding: 'utf8' });
const hasBash = spawnSync('bash', ['-c', 'ulimit -f 4 && exit 0']).status === 0;

/** What lies in a folder, hidden files too: nothing half-written stays. */
const left = (folder: string): string[] => readdirSync(folder);

describe.skipIf(!hasBash)('a disk that takes no more (a limit on the size of files stands for it)', () => {
  test('leaves neither a half-written pattern nor an aside, and says so', () => {
    const folder = freshFolder();
    const { status, stderr } = shell(`trap '' XFSZ; ulimit -f 8; "$1" "$2" print "$3" -o leg.pdf`, folder);
    expect(status).toBe(2);
    expect(stderr).toMatch(/leg\.pdf: .*(larger|full).*\. .*\./);
    expect(left(folder)).toEqual([]);
  });

  test('leaves the pattern that was there as it was', () => {
    const folder = freshFolder();
    expect(fairlath(['print', leg, '-o', 'leg.pdf'], folder).code).toBe(0);
    const before = readFileSync(join(folder, 'leg.pdf'));
    expect(shell(`trap '' XFSZ; ulimit -f 8; "$1" "$2" print "$3" -o leg.pdf`, folder).status).toBe(2);
    expect(readFileSync(join(folder, 'leg.pdf'))).toEqual(before);
    expect(left(folder)).toEqual(['leg.pdf']);
  });
});

describe('stopped half-way', () => {
  test('a killed print leaves the old pattern whole, never half of a new one', async () => {
    const folder = freshFolder();
    expect(fairlath(['print', leg, '-o', 'leg.pdf'], folder).code).toBe(0);
    const before = readFileSync(join(folder, 'leg.pdf'));
    for (const after of [200, 400]) {
      const child = spawn(process.execPath, [bin, 'print', leg, '--paper', 'a4', '-o', 'leg.pdf'], {
        cwd: folder,
      });
      const done = new Promise<number | null>((resolve) => child.on('exit', resolve));
      setTimeout(() => child.kill('SIGKILL'), after);
      const code = await done;
      expect(left(folder)).toEqual(['leg.pdf']);
      const now = readFileSync(join(folder, 'leg.pdf'));
      if (code === null && !now.equals(before)) expect(now.subarray(-6).toString()).toContain('%%EOF');
      writeFileSync(join(folder, 'leg.pdf'), before);
    }
  });
});

describe('places that cannot be written to or read', () => {
  // The super-user writes wherever the permissions forbid it; /proc refuses even him.
  test.skipIf(!existsSync('/proc/self'))('a folder that takes no files', () => {
    const { code, err } = fairlath(['print', leg, '-o', '/proc/self/leg.pdf']);
    expect(code).toBe(2);
    expect(err).toMatch(/leg\.pdf: .*\. .*\./);
  });

  test.skipIf(process.getuid?.() === 0)('a folder and a job without permission', () => {
    const folder = freshFolder();
    mkdirSync(join(folder, 'shut'), { mode: 0o500 });
    writeFileSync(join(folder, 'shut.yaml'), 'part: A', { mode: 0 });
    expect(fairlath(['print', leg, '-o', 'shut/leg.pdf'], folder)).toMatchObject({ code: 2 });
    expect(fairlath(['show', 'shut.yaml'], folder)).toMatchObject({ code: 2 });
    writeFileSync(join(folder, 'shut.pdf'), '%PDF-', { mode: 0 });
    expect(fairlath(['print', leg, '-o', 'shut.pdf'], folder)).toMatchObject({ code: 2 });
  });

  test.skipIf(!hasBash)('a folder that is gone', () => {
    const gone = shell('mkdir gone; cd gone; rmdir ../gone; "$1" "$2" print "$3"; echo $?', freshFolder());
    expect(gone.stdout).toBe('2\n');
    expect(gone.stderr).toMatch(/^error: hall-bench-leg\.pdf: this file does not exist\./);
  });

  test('a job that is a folder, a device, or not there', () => {
    const folder = freshFolder();
    for (const job of [folder, '/dev/null', 'none.yaml', `${'a'.repeat(300)}.yaml`, 'leg.yaml/leg.yaml']) {
      const { code, err } = fairlath(['show', job], folder);
      expect(code, job).toBe(2);
      expect(err, job).not.toMatch(/\n {4}at /);
    }
  });
});

describe('file names', () => {
  test('a pattern can be called anything', () => {
    const names = ["maker's leg.pdf", '"leg".pdf', 'pié ¾ 脚.pdf', '-leg.pdf', 'a;b&c$d.pdf'];
    const folder = freshFolder();
    for (const name of names)
      expect(fairlath(['print', '--no-cover', leg, `--output=${name}`], folder)).toMatchObject({
        code: 0,
        err: '',
      });
    expect(left(folder).sort()).toEqual(names.sort());
  });

  test('a job can be called by a leading dash', () => {
    const folder = freshFolder();
    writeFileSync(join(folder, '-leg.yaml'), readFileSync(leg));
    expect(fairlath(['show', './-leg.yaml'], folder).code).toBe(0);
    expect(fairlath(['show', '--', '-leg.yaml'], folder).code).toBe(0);
  });
});

describe.skipIf(!hasBash)('what is said', () => {
  const MUCH = '"$1" "$2" offsets "$3" --every 1/64 --json';

  test('a reader that stops early is no fault', () => {
    for (const words of [MUCH, '"$1" "$2" --help', '"$1" "$2" show --help']) {
      const { stdout, stderr } = shell(`${words} | head -c 100; echo " \${PIPESTATUS[0]}"`, root);
      expect(stderr, words).toBe('');
      expect(stdout, words).toMatch(/ 0\n$/);
    }
    expect(shell(`"$1" "$2" show "$3" >&-; echo $?`, root).stderr).not.toMatch(/\n {4}at /);
  });

  test('a slow reader gets all of it, even of a pipe that does not wait', () => {
    const { stdout: all } = shell(MUCH, root);
    expect(all.length, 'more than a pipe holds').toBeGreaterThan(2 ** 17);
    // Node makes a pipe that it writes to one that does not wait, for all who write to it.
    const beside = '"$1" -e "process.stdout; setTimeout(() => {}, 2000)"';
    const { stdout, stderr } = shell(`(${beside} & sleep 0.5; ${MUCH}) | (sleep 1; cat)`, root);
    expect(stderr).toBe('');
    expect(stdout).toBe(all);
  });

  test.skipIf(!existsSync('/dev/full'))('a full disk is reported', () => {
    const { stdout, stderr } = shell('"$1" "$2" show "$3" >/dev/full; echo $?', root);
    expect(stdout).toBe('2\n');
    expect(stderr).toMatch(/^error: standard output: the disk is full\. .+\n$/);
    // A mistake that cannot be printed still gives its exit code.
    expect(shell('"$1" "$2" bogus 2>/dev/full; echo $?', root).stdout).toBe('2\n');
  });
});
