import type { Point } from '../../curves/geometry/point.ts';
import type { CompoundAngles } from '../../part/ends/compound-angles.ts';
import type { Part } from '../../part/part.ts';
import type { Warning } from '../../units/fault.ts';
import { degrees } from '../../units/number-format.ts';
import { writeLine } from './stdout.ts';

/** Points as JSON has them: [x, y]. */
export const pointJson = ({ x, y }: Point): readonly [number, number] => [x, y];

/** The angles of an end's cut. */
export const anglesJson = (angles: CompoundAngles): object => ({
  miterDeg: degrees(angles.miter),
  bevelDeg: degrees(angles.bevel),
  rakeDeg: degrees(angles.rake),
  splayDeg: degrees(angles.splay),
  leanDeg: degrees(angles.lean),
  sightDeg: degrees(angles.sight),
});

/** Prints one object with the keys every command has. Full precision; a number that is none is our failure. */
export function printJson(
  command: string,
  part: Part,
  body: object,
  warnings: readonly Warning[] = part.warnings,
): void {
  const whole = { command, part: part.name, units: 'mm', ...body, warnings };
  const text = JSON.stringify(
    whole,
    (key, value: unknown) => {
      if (typeof value === 'number' && !Number.isFinite(value))
        throw new Error(`${key} came out as ${value}`);
      return value;
    },
    2,
  );
  writeLine(text);
}
