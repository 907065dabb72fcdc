import { type Point, point } from '../../curves/geometry/point.ts';
import type { Unit } from '../../units/unit.ts';
import { readLength } from './read-values.ts';
import type { Entry } from './yaml-node.ts';

/** A point as set out: where it lies, and how its lengths were written, for messages. */
export interface SetOut {
  readonly at: Point;
  readonly station: string;
  readonly offset: string;
  readonly entry: Entry;
}

const A_POINT = 'Write a point as [station, offset], such as [8, 3].';

/** On one edge: a nail every 100 mm of a 20 m rail, more than anyone drives. It keeps the work bounded. */
export const MAX_PINS = 200;

export function readPoint(entry: Entry, unit: Unit): SetOut | undefined {
  const items = entry.list(A_POINT, MAX_PINS);
  if (!items) return undefined;
  const [station, offset, ...more] = items;
  if (!station || !offset || more.length > 0) {
    const parted = items.length > 2 ? ' A comma parts the two: write a decimal with a point, as 40.5.' : '';
    const wording = `a point has 2 lengths, not ${items.length}. ${A_POINT}${parted}`;
    return entry.report('job.point', wording);
  }
  const x = readLength(station, unit);
  const y = readLength(offset, unit);
  if (x === undefined || y === undefined) return undefined;
  const written = (length: Entry): string => length.text(A_POINT) ?? '';
  return { at: point(x, y), station: written(station), offset: written(offset), entry };
}

/** One point, or a list of points. */
export function readPins(entry: Entry, unit: Unit): SetOut[] | undefined {
  if (!entry.holdsLists()) {
    const single = readPoint(entry, unit);
    return single && [single];
  }
  const pins = entry.list(A_POINT, MAX_PINS)?.map((item) => readPoint(item, unit));
  const known = pins?.filter((pin) => pin !== undefined);
  return known?.length === pins?.length ? known : undefined;
}
