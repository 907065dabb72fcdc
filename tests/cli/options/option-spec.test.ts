import { Command } from 'commander';
import { expect, expectTypeOf, test } from 'vitest';
import {
  addOptions,
  group,
  nameOf,
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
