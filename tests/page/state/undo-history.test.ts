import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  another,
  back,
  begun,
  forward,
  type History,
  rested,
  stepped,
} from '../../../src/page/state/undo-history.ts';

const now = ({ now: { text } }: History): string => text;

describe('the steps of the work', () => {
  test('go back to the start and forward to the end', () => {
    const worked = ['b', 'c', 'd'].reduce((steps, text) => stepped(steps, text), begun('a'));
    expect(now(back(back(back(worked))))).toBe('a');
    expect(now(forward(forward(forward(back(back(back(worked)))))))).toBe('d');
  });

  test('a step after going back takes the place of what was undone', () => {
    const steps = stepped(back(stepped(stepped(begun('a'), 'b'), 'c')), 'd');
    expect([now(steps), now(back(steps)), now(forward(steps))]).toEqual(['d', 'b', 'd']);
  });

  test('a burst is one step, until the hand rests', () => {
    const burst = stepped(stepped(begun('a'), 'b', 'nail'), 'c', 'nail');
    expect(now(back(burst))).toBe('a');
    expect(now(back(stepped(rested(burst), 'd', 'nail')))).toBe('c');
    expect(now(back(stepped(burst, 'd', 'apex')))).toBe('c');
  });

  test('the same text is no step', () => {
    const steps = stepped(begun('a'), 'b');
    expect(stepped(steps, 'b')).toBe(steps);
  });

  test('another job is a step, too: going back gives the one before, with its number', () => {
    const steps = another(stepped(begun('a'), 'b'), 'c');
    expect([now(steps), steps.now.job]).toEqual(['c', 1]);
    expect([now(back(steps)), back(steps).now.job]).toEqual(['b', 0]);
    expect(stepped(steps, 'd').now.job).toBe(1);
    expect(now(back(another(another(begun('a'), 'b', 'list'), 'c', 'list')))).toBe('a');
    // The number of one that is undone and gone is not given again.
    expect(another(back(another(begun('a'), 'b')), 'c').now.job).toBe(2);
  });

  test('property: so many steps back and as many forward give the same text', () => {
    fc.assert(
      fc.property(fc.array(fc.string(), { maxLength: 20 }), fc.nat(25), (texts, count) => {
        const worked = texts.reduce((steps, text) => stepped(steps, text), begun('first'));
        let there = worked;
        let gone = 0;
        for (; gone < count && there.past.length > 0; gone++) there = back(there);
        for (let i = 0; i < gone; i++) there = forward(there);
        expect(there).toEqual(worked);
      }),
    );
  });
});
