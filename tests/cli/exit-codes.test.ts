import { CommanderError } from 'commander';
import { describe, expect, test } from 'vitest';
import { EXIT_CODE_HELP, EXIT_CODES, outcomeOf } from '../../src/cli/exit-codes.ts';
import { plainContext, withFaultContext } from '../../src/cli/output/report-errors.ts';
import { Fault, Faults } from '../../src/units/fault.ts';

const thrownBy = (work: () => void): unknown => {
  try {
    return work();
  } catch (error) {
    return error;
  }
};

describe('the exit code of a run', () => {
  const fault = new Fault('command.turn', 'wrong', '--turn');

  test.each([
    ['one mistake', fault],
    ['several mistakes', new Faults([fault])],
    [
      'a mistake with its context',
      thrownBy(() =>
        withFaultContext(plainContext, () => {
          throw fault;
        }),
      ),
    ],
  ])('is 2 after %s, with the code and the key', (_name, error) => {
    expect(outcomeOf(error)).toEqual({ exitCode: 2, faults: [{ code: 'command.turn', key: '--turn' }] });
  });

  test.each([new Error('broken'), new TypeError('x is undefined'), 'thrown words'])(
    'is 1 after a failure of fairlath: %s',
    (error) => {
      expect(outcomeOf(error)).toEqual({ exitCode: 1, faults: [] });
    },
  );

  test('is 0 after help, and 2 after a command line that the parser refuses', () => {
    expect(outcomeOf(new CommanderError(0, 'commander.helpDisplayed', '')).exitCode).toBe(0);
    expect(outcomeOf(new CommanderError(1, 'commander.unknownOption', ''))).toMatchObject({
      exitCode: 2,
      faults: [{ code: 'commander.unknownOption' }],
    });
  });

  test('is the one that the help states', () => {
    for (const code of Object.values(EXIT_CODES)) expect(EXIT_CODE_HELP).toMatch(new RegExp(`\\b${code} `));
  });
});
