import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { root } from '../cli/run.ts';

const examples = readdirSync(join(root, 'samples', 'library'));

describe('the library', () => {
  test('every export is named in docs/library.md', () => {
    const index = readFileSync(join(root, 'src', 'index.ts'), 'utf8');
    const names = [...index.matchAll(/\{([^}]+)\}/g)]
      .flatMap(([, list]) => list!.split(','))
      .map((name) => name.trim().replace(/^type /, ''))
      .filter(Boolean);
    const text = readFileSync(join(root, 'docs', 'library.md'), 'utf8');
    expect(names.length).toBeGreaterThan(50);
    expect(names.filter((name) => !text.includes(`| \`${name}\` |`))).toEqual([]);
  });

  test.each(examples)('%s runs as it stands and is short', (name) => {
    const file = join(root, 'samples', 'library', name);
    const { status, stdout, stderr } = spawnSync(process.execPath, [file], { encoding: 'utf8' });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(stdout).not.toMatch(/NaN|undefined|^$/);
    expect(readFileSync(file, 'utf8').split('\n').length).toBeLessThan(40);
  });
});
