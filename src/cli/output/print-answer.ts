import type { Part } from '../../part/part.ts';
import type { Warning } from '../../units/fault.ts';
import { writeLine } from './stdout.ts';

export interface CommandAnswer {
  readonly part: Part;
  /** For standard error; by default those of the part. */
  readonly warnings?: readonly Warning[];
  /** By default the same. */
  readonly jsonWarnings?: readonly Warning[];
  readonly json: () => object;
  readonly text: () => string;
}

export function printAnswer(command: string, answer: CommandAnswer, asJson: boolean): void {
  const { part, warnings = part.warnings, jsonWarnings = warnings, json, text } = answer;
  for (const { message } of warnings) console.error(`warning: ${message}`);
  const body = () => ({ command, part: part.name, units: 'mm', ...json(), warnings: jsonWarnings });
  writeLine(asJson ? jsonText(body()) : text());
}

/** An object as JSON, in full precision. A number that is not finite is a failure of fairlath. */
const jsonText = (body: object): string =>
  JSON.stringify(
    body,
    (key, value: unknown) => {
      if (typeof value === 'number' && !Number.isFinite(value))
        throw new Error(`${key} came out as ${value}`);
      return value;
    },
    2,
  );

export const cautionsText = (cautions: readonly Warning[]): string =>
  ['Take care:', ...cautions.map(({ message }) => `- ${message}`)].join('\n');
