import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { BENCH } from '../../part/jobs.ts';
import { fairlath, folderWithSamples, freshFolder, LEG, RAIL, root } from '../run.ts';
import { expectWords, type Mistake, testMistakes } from '../words.ts';

const sample = (name: string): string => join(root, 'samples', name);
const leg = join(root, LEG);
const json = (args: readonly string[], folder = freshFolder()) =>
  JSON.parse(fairlath([...args, '--json'], folder).out);

const MISTAKES: readonly Mistake[] = [
  [['card', LEG, '--paper', 'roll:24in'], 'card.paper', '--paper'],
  [['card', LEG, '--paper', '13x19in'], 'card.paper', '--paper'],
  [['card', LEG, '-o', 'card.png'], 'file.other-kind'],
  [['card', LEG, '-o', LEG, '--force'], 'file.is-input'],
];

describe('fairlath card', () => {
  test('without -o the card takes the name of the part', () => {
    const folder = freshFolder();
    expect(fairlath(['card', leg], folder)).toMatchObject({ code: 0, err: '' });
    expect(readdirSync(folder)).toEqual(['hall-bench-leg-card.pdf']);
  });

  test('its JSON has what is printed, with the figures of offsets, stock and saw', () => {
    const job = sample('hall-bench/leg.yaml');
    const card = json(['card', job, '-o', 'leg.pdf']);
    expect(card).toMatchObject({
      command: 'card',
      units: 'mm',
      file: 'leg.pdf',
      paper: 'letter',
      scale: 1 / 2.5,
    });
    const mark = (shown: string): string => shown.replaceAll('⁄', '/').replace(/ (full|scant)$/, '');
    const at = card.offsets.map(({ shown }: { shown: string }) => mark(shown));
    for (const { name, rows } of json(['offsets', job, '--at', at.join(', ')]).edges)
      for (const [i, row] of card.offsets.entries()) {
        const printed = row.edges.find((edge: { name: string }) => edge.name === name);
        // A station shown to the nearest mark moves the offset by less than a mark. Past an end's cut there is no wood.
        if (printed) expect(mark(printed.shown)).toBe(mark(rows[i].shown));
        else expect(rows[i].wood).toBe('none');
      }
    expect(card.cutList.boardFeet).toBe(json(['stock', job]).inAll.boardFeet.toFixed(1));
    const [end] = json(['saw', job]).ends;
    const [miter, tilt] = card.saw[0].value.replaceAll('−', '-').match(/-?\d+/g).map(Number);
    expect([miter, tilt]).toEqual([Math.round(end.miterDeg), Math.round(end.bevelDeg)]);
    expect(card.cautions.length).toBeGreaterThan(2);
  });

  test.each([
    [LEG, 'letter'],
    [RAIL, 'a4'],
  ])('the card of %s is on %s, the paper of its unit', (job, paper) => {
    expect(json(['card', join(root, job)]).paper).toBe(paper);
  });

  test('replaces a card of its own, and another file only with --force', () => {
    const folder = freshFolder();
    const card = (...more: string[]) => fairlath(['card', leg, '-o', 'card.pdf', ...more], folder);
    expect(card().code).toBe(0);
    expect(card().code).toBe(0);
    writeFileSync(join(folder, 'card.pdf'), 'a letter');
    expect(card()).toMatchObject({ code: 2, faults: [{ code: 'file.exists' }] });
    expect(card('--force').code).toBe(0);
  });

  testMistakes(MISTAKES);

  test('its words are the reviewed ones', () =>
    expectWords('card', [['card', '--help'], ['card', LEG], ...MISTAKES.map(([args]) => args)]));
});

describe('the hall bench as a folder of jobs with their cards', () => {
  test.each(BENCH)('%s runs through every command without a warning', (name) => {
    const { path } = folderWithSamples();
    const job = join('samples', name);
    for (const command of ['show', 'offsets', 'batten', 'saw', 'stock'])
      expect({ command, ...fairlath([command, job, '--json'], path) }).toMatchObject({ code: 0, err: '' });
    expect(fairlath(['print', job, '-o', 'bench.pdf'], path)).toMatchObject({ code: 0, err: '' });
  });

  test.each(BENCH)('the card beside %s is fresh (npm run cards), and small', (name) => {
    const kept = sample(name.replace('.yaml', '-card.pdf'));
    const folder = freshFolder();
    expect(fairlath(['card', sample(name), '-o', 'fresh.pdf'], folder).code).toBe(0);
    expect(readFileSync(kept).equals(readFileSync(join(folder, 'fresh.pdf')))).toBe(true);
    expect(statSync(kept).size).toBeLessThan(60_000);
  });

  test('every card has its job', () => {
    const names = readdirSync(sample('hall-bench'));
    const cards = names.filter((name) => name.endsWith('.pdf'));
    expect(cards.length).toBeGreaterThan(0);
    for (const card of cards)
      expect(existsSync(sample(`hall-bench/${card.replace('-card.pdf', '.yaml')}`)), card).toBe(true);
    expect(cards).toHaveLength(names.filter((name) => name.endsWith('.yaml')).length);
  });
});
