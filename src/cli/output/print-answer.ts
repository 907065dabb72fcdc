import type { Part } from '../../part/part.ts';
import type { Warning } from '../../units/fault.ts';
import { jsonText } from './json-output.ts';
import { writeLine } from './stdout.ts';

/** What a command found out about a part. Only the form that is wanted is made. */
export interface CommandAnswer {
  readonly part: Part;
  /** Warnings go to standard error and leave the exit code alone. By default those of the part. */
  readonly warnings?: readonly Warning[];
  /** The warnings of the JSON; by default the same. */
  readonly jsonWarnings?: readonly Warning[];
  readonly json: () => object;
  readonly text: () => string;
}

/** Prints an answer: its warnings, then one JSON object with the keys that every command has, or its text. */
export function printAnswer(command: string, answer: CommandAnswer, asJson: boolean): void {
  const { part, warnings = part.warnings, jsonWarnings = warnings, json, text } = answer;
  for (const { message } of warnings) console.error(`warning: ${message}`);
  writeLine(
    asJson ? jsonText({ command, part: part.name, units: 'mm', ...json(), warnings: jsonWarnings }) : text(),
  );
}

/** Cautions at the end of a text. */
export const cautionsText = (cautions: readonly Warning[]): string =>
  ['Take care:', ...cautions.map(({ message }) => `- ${message}`)].join('\n');
