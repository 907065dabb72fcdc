import { toDouble } from './exact-fraction.ts';
import { parseNumber } from './parse-number.ts';
import { quoted } from './quoted.ts';
import { type MakeTextFault, splitTyped, textFaultMaker } from './split-typed.ts';

const EXAMPLE = '4, 7 1/2° or 1 in 6';
const DEGREES = /^(°|deg|degs|degree|degrees)$/;
const SLOPE = /^(in|:)$/;

/**
 * An angle (radians, never -0) as people type it: `4`, `4 deg`, `7 1/2°`, or as a slope: `1 in 6`, `1:6`.
 * A cut at 90 degrees or more would run along the edge it is meant to cross. @throws Fault `angle.…`
 */
export function parseAngle(text: string, upTo: 'below 90' | '90' = 'below 90'): number {
  const complain = textFaultMaker('angle', text);
  const { negative, pieces } = splitTyped(text, EXAMPLE, complain);
  const [first = '', word, second = '', ...more] = pieces;
  if (more.length > 0)
    throw complain('ambiguous', 'has more than one angle or slope', `Write one angle, such as ${EXAMPLE}`);
  const isSlope = word !== undefined && SLOPE.test(word);
  const size = isSlope ? slope(first, second, complain) : degrees(first, word, second, complain);
  if (size > Math.PI / 2 || (upTo === 'below 90' && size === Math.PI / 2))
    throw complain('too-large', 'is 90 degrees or more', 'Use an angle between −90° and 90°');
  return negative && size !== 0 ? -size : size;
}

function degrees(number: string, word: string | undefined, rest: string, complain: MakeTextFault): number {
  if (word !== undefined && !DEGREES.test(word)) {
    const cure = `Use degrees or a slope, such as ${EXAMPLE}`;
    throw complain('unknown-unit', `contains ${quoted(word)}, which is not a unit for an angle`, cure);
  }
  if (rest.trim() !== '')
    throw complain(
      'ambiguous',
      'has more text after the degrees',
      'Write a fraction of a degree as 4.5° or 4 1/2°',
    );
  return (toDouble(parseNumber(number, complain)) * Math.PI) / 180;
}

function slope(riseText: string, runText: string, complain: MakeTextFault): number {
  const example = `${riseText.trim() || '1'} in 6`;
  if (runText.trim() === '')
    throw complain(
      'half-slope',
      'is a slope without a run',
      `Write the rise and the run, such as ${example}`,
    );
  const [rise, run] = [parseNumber(riseText, complain), parseNumber(runText, complain)];
  if (run.equals(0))
    throw complain('zero-denominator', 'has a run of 0', `Use a run larger than 0, such as ${example}`);
  return Math.atan(toDouble(rise.div(run)));
}
