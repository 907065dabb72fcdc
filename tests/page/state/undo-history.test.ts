import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  endCoalescing,
  type History,
  pushJob,
  pushText,
  redo,
  startHistory,
  undo,
} from '../../../src/page/state/undo-history.ts';

const now = ({ now: { text } }: History): string => text;

describe('the steps of the work', () => {
  test('go back to the start and forward to the end', () => {
    const worked = ['b', 'c', 'd'].reduce((steps, text) => pushText(steps, text), startHistory('a'));
    expect(now(undo(undo(undo(worked))))).toBe('a');
    expect(now(redo(redo(redo(undo(undo(undo(worked)))))))).toBe('d');
  });

  test('a step after going back takes the place of what was undone', () => {
    const steps = pushText(undo(pushText(pushText(startHistory('a'), 'b'), 'c')), 'd');
    expect([now(steps), now(undo(steps)), now(redo(steps))]).toEqual(['d', 'b', 'd']);
  });

  test('a burst is one step, until the hand rests', () => {
    const burst = pushText(pushText(startHistory('a'), 'b', 'nail'), 'c', 'nail');
    expect(now(undo(burst))).toBe('a');
    expect(now(undo(pushText(endCoalescing(burst), 'd', 'nail')))).toBe('c');
    expect(now(undo(pushText(burst, 'd', 'apex')))).toBe('c');
  });

  test('the same text is no step', () => {
    const steps = pushText(startHistory('a'), 'b');
    expect(pushText(steps, 'b')).toBe(steps);
  });

  test('another job is a step, too: going back gives the one before, with its number', () => {
    const steps = pushJob(pushText(startHistory('a'), 'b'), 'c');
    expect([now(steps), steps.now.jobNumber]).toEqual(['c', 1]);
    expect([now(undo(steps)), undo(steps).now.jobNumber]).toEqual(['b', 0]);
    expect(pushText(steps, 'd').now.jobNumber).toBe(1);
    expect(now(undo(pushJob(pushJob(startHistory('a'), 'b', 'list'), 'c', 'list')))).toBe('a');
    // The number of one that is undone and gone is not given again.
    expect(pushJob(undo(pushJob(startHistory('a'), 'b')), 'c').now.jobNumber).toBe(2);
  });

  test('property: so many steps back and as many forward give the same text', () => {
    fc.assert(
      fc.property(fc.array(fc.string(), { maxLength: 20 }), fc.nat(25), (texts, count) => {
        const worked = texts.reduce((steps, text) => pushText(steps, text), startHistory('first'));
        let there = worked;
        let gone = 0;
        for (; gone < count && there.past.length > 0; gone++) there = undo(there);
        for (let i = 0; i < gone; i++) there = redo(there);
        expect(there).toEqual(worked);
      }),
    );
  });
});
