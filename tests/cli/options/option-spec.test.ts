import { Command } from 'commander';
import { describe, expect, expectTypeOf, test } from 'vitest';
import {
  addOptions,
  group,
  nameOf,
  type OptionList,
  type OptionValues,
  option,
  optionWithDefault,
  readLengths,
  repeatedOption,
  requiredOption,
} from '../../../src/cli/options/option-spec.ts';

const OPTIONS = [
  option('-o, --output <FILE>', 'a file'),
  option('--depth-at-45 <length>', 'a length'),
  option('--before-sanding', 'a switch'),
  option('--no-cover', 'a switch that is on'),
  group('Others:'),
  optionWithDefault('--turn <degrees>', 'an angle', 'auto'),
  requiredOption('--across <measured>', 'a length'),
  repeatedOption('--reading <station=offset>', 'a reading'),
] as const;

const parse = (...args: string[]): OptionValues<typeof OPTIONS> =>
  addOptions(new Command(), OPTIONS).parse(args, { from: 'user' }).opts();

test('the parser hands over the values under the names of the type', () => {
  expect(parse('--across', '1')).toEqual({ cover: true, turn: 'auto', across: '1', reading: [] });
  expect(
    parse(
      ...[
        '-o',
        'a.pdf',
        '--depth-at-45',
        '2',
        '--before-sanding',
        '--no-cover',
        '--turn',
        '90',
        '--across',
        '1',
      ],
      ...['--reading', '1=2', '--reading', '3=4'],
    ),
  ).toEqual({
    output: 'a.pdf',
    depthAt45: '2',
    beforeSanding: true,
    cover: false,
    turn: '90',
    across: '1',
    reading: ['1=2', '3=4'],
  });
});

test('the type of the values follows from the list', () => {
  expectTypeOf<OptionValues<typeof OPTIONS>>().toExtend<{
    readonly output?: string;
    readonly depthAt45?: string;
    readonly beforeSanding?: boolean;
    readonly cover: boolean;
    readonly turn: string;
    readonly across: string;
    readonly reading: readonly string[];
  }>();
  expectTypeOf(nameOf(OPTIONS[1])).toEqualTypeOf<'depthAt45'>();
  expect(nameOf(OPTIONS[1])).toBe('depthAt45');
});

test('a length that is wrong is placed at its option as it is typed', () => {
  const read = (typed: string) => readLengths({ depthAt45: typed }, ['depthAt45'], 'mm');
  expect(read('2')).toEqual({ depthAt45: 2 });
  expect(readLengths({}, ['depthAt45'], 'mm')).toEqual({});
  expect(() => read('0')).toThrow(expect.objectContaining({ code: 'length.zero', key: '--depth-at-45' }));
});

describe('an option that was renamed', () => {
  const RENAMED = [option('--story-stick', 'a switch'), option('--blade <width>', 'a length')] as const;
  const THICKNESS = [option('--blade-thickness <length>', 'a length')] as const;
  const made = (options: OptionList): Command => addOptions(new Command(), options);
  const parsed = (options: OptionList, ...args: string[]): object =>
    made(options).parse(args, { from: 'user' }).opts();

  test('works by both names, and gives its value under the present one', () => {
    for (const name of ['--story-stick', '--gauge'])
      expect(parsed(RENAMED, name, '--blade', '1')).toEqual({ storyStick: true, blade: '1' });
    for (const args of [['--blade-thickness', '2'], ['--gauge', '2'], ['--gauge=2']])
      expect(parsed(THICKNESS, ...args)).toEqual({ bladeThickness: '2' });
  });

  test('is in the help by its present name only', () => {
    expect(made(THICKNESS).helpInformation()).toContain('--blade-thickness <length>');
    expect(made(THICKNESS).helpInformation()).not.toContain('gauge');
  });

  test('is refused when both names are given', () => {
    const repeated = (key: string) => expect.objectContaining({ code: 'command.repeated', key });
    expect(() => parsed(RENAMED, '--gauge', '--story-stick')).toThrow(repeated('--story-stick'));
    expect(() => parsed(THICKNESS, '--gauge', '1', '--blade-thickness', '2')).toThrow(
      repeated('--blade-thickness'),
    );
    expect(() => parsed(THICKNESS, '--gauge', '1', '--gauge', '2')).toThrow(repeated('--blade-thickness'));
  });
});
