import { existsSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { BENCH } from '../../part/jobs.ts';
import { fairlath, freshFolder, root } from '../run.ts';

const folder = freshFolder();
afterAll(() => rmSync(folder, { recursive: true }));
const sample = (name: string): string => join(root, 'samples', name);
const leg = sample('hall-bench-leg.yaml');
const json = (args: readonly string[]) => JSON.parse(fairlath([...args, '--json'], folder).out);

describe('fairlath card', () => {
  test('without -o the card takes the part’s name', () => {
    const { code, err, out } = fairlath(['card', leg], folder);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('the card is in hall-bench-leg-card.pdf');
    expect(existsSync(join(folder, 'hall-bench-leg-card.pdf'))).toBe(true);
  });

  test('tells what it printed, with the figures of offsets, stock and saw', () => {
    const job = sample('hall-bench/leg.yaml');
    const card = json(['card', job, '-o', 'leg.pdf']);
    expect(card).toMatchObject({
      command: 'card',
      units: 'mm',
      file: 'leg.pdf',
      paper: 'letter',
      scale: 1 / 2.5,
    });
    const at = card.offsets.map(({ shown }: { shown: string }) =>
      shown.replaceAll('⁄', '/').replace(/ (full|shy)$/, ''),
    );
    const { edges } = json(['offsets', job, '--at', at.join(', ')]);
    const marks = (shown: string): string => shown.replaceAll('⁄', '/').replace(/ (full|shy)$/, '');
    for (const { name, rows } of edges)
      for (const [i, row] of card.offsets.entries()) {
        const told = row.edges.find((edge: { name: string }) => edge.name === name);
        // A station told to a hair moves the offset by less than a hair; past an end's cut there is nothing to measure.
        if (told) expect(marks(told.shown)).toBe(marks(rows[i].shown));
        else expect(rows[i].wood).toBe('none');
      }
    const { inAll } = json(['stock', job]);
    expect(card.cutList.boardFeet).toBe(inAll.boardFeet.toFixed(1));
    const { ends } = json(['saw', job]);
    const [set] = card.saw;
    expect(set.value).toBe(
      `miter ${Math.round(ends[0].miterDeg)}°, blade tilt ${Math.round(ends[0].bevelDeg)}°`,
    );
    expect(card.cautions.length).toBeGreaterThan(2);
  });

  test.each([
    ['hall-bench-leg.yaml', 'letter'],
    ['garden-arch-rail.yaml', 'a4'],
  ])('%s lies on %s, the paper of its unit', (name, paper) => {
    expect(json(['card', sample(name), '-o', 'usual.pdf']).paper).toBe(paper);
  });

  test.each(['roll:24in', '13x19in'])('%s is no paper for a card', (paper) => {
    const { code, err } = fairlath(['card', leg, '--paper', paper], folder);
    expect(code).toBe(2);
    expect(err).toContain(
      '--paper: a card is one sheet of a usual size. Name one of letter, legal, tabloid, a4, a3.',
    );
  });

  test('replaces a card of ours, and another file only with --force', () => {
    expect(fairlath(['card', leg, '-o', 'again.pdf'], folder).code).toBe(0);
    expect(fairlath(['card', leg, '-o', 'again.pdf'], folder).code).toBe(0);
    writeFileSync(join(folder, 'letter.pdf'), 'a letter');
    const refused = fairlath(['card', leg, '-o', 'letter.pdf'], folder);
    expect(refused.code).toBe(2);
    expect(refused.err).toContain('not one of ours');
    expect(fairlath(['card', leg, '-o', 'letter.pdf', '--force'], folder).code).toBe(0);
    expect(fairlath(['card', leg, '-o', leg, '--force'], folder).code).toBe(2);
  });
});

describe('the hall bench as a folder of jobs with its cards', () => {
  test.each(BENCH)('%s is shown, printed, sawn, stocked and has its strip', (name) => {
    const job = sample(name);
    for (const command of ['show', 'offsets', 'batten', 'saw', 'stock'])
      expect({ command, ...fairlath([command, job, '--json'], folder) }).toMatchObject({ code: 0, err: '' });
    expect(fairlath(['print', job, '-o', 'bench.pdf'], folder)).toMatchObject({ code: 0, err: '' });
  });

  test.each(BENCH)('the card beside %s is fresh (npm run cards), and small', (name) => {
    const kept = sample(name.replace('.yaml', '-card.pdf'));
    expect(fairlath(['card', sample(name), '-o', 'fresh.pdf'], folder).code).toBe(0);
    expect(readFileSync(kept).equals(readFileSync(join(folder, 'fresh.pdf')))).toBe(true);
    expect(statSync(kept).size).toBeLessThan(60_000);
  });

  test('no card is left whose job is gone', () => {
    const names = readdirSync(sample('hall-bench'));
    const jobs = names.filter((name) => name.endsWith('.yaml'));
    expect(names.filter((name) => name.endsWith('.pdf'))).toEqual(
      jobs.map((name) => name.replace('.yaml', '-card.pdf')),
    );
  });
});
