import type { Point } from '../../curves/geometry/point.ts';
import type { CompoundAngles } from '../../part/ends/compound-angles.ts';
import type { Part } from '../../part/part.ts';
import { type SafetyNote, safetySections } from '../../shop/words/safety.ts';
import type { Warning } from '../../units/fault.ts';
import { degrees } from '../../units/number-format.ts';
import type { Unit } from '../../units/unit.ts';
import { writeLine } from './stdout.ts';

export interface CommandAnswer {
  readonly part: Part;
  /** For standard error (default: those of the part). `jsonWarnings` are for the JSON (default: the same). */
  readonly warnings?: readonly Warning[];
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

/** An object as JSON, in full precision. A number that is not finite is a bug. */
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

/** "Warning:" and "Caution:", each over its list. */
export const safetyText = (notes: readonly SafetyNote[]): string =>
  safetySections(notes)
    .map(({ title, messages }) => [`${title}:`, ...messages.map((message) => `- ${message}`)].join('\n'))
    .join('\n\n');

/** The unit of a whole table: "in" alone reads as the word. */
export const UNIT_WORDS: Readonly<Record<Unit, string>> = { in: 'inches', mm: 'mm' };

export const placeJson = ({ x, y }: Point): object => ({ station: x, offset: y });

export const pointJson = ({ x, y }: Point): readonly [number, number] => [x, y];

export const anglesJson = (angles: CompoundAngles): object => ({
  miterDeg: degrees(angles.miter),
  bevelDeg: degrees(angles.bevel),
  rakeDeg: degrees(angles.rake),
  splayDeg: degrees(angles.splay),
  leanDeg: degrees(angles.lean),
  sightDeg: degrees(angles.sight),
});

export const pick = <T extends object, K extends keyof T>(from: T, ...keys: readonly K[]): Pick<T, K> =>
  Object.fromEntries(keys.map((key) => [key, from[key]])) as Pick<T, K>;

/** Rows of cells as aligned columns of characters. */
export function textTable(
  rows: readonly (readonly string[])[],
  { align = 'right' as 'left' | 'right', gap = 3, firstWidth = 0 } = {},
): string {
  const widths = (rows[0] ?? []).map((_, i) =>
    Math.max(i === 0 ? firstWidth : 0, ...rows.map((row) => row[i]?.length ?? 0)),
  );
  const pad = (cell: string, i: number): string =>
    i === 0 || align === 'left' ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0);
  return rows.map((row) => row.map(pad).join(' '.repeat(gap)).trimEnd()).join('\n');
}
