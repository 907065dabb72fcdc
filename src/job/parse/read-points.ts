import { type Point, point } from '../../curves/geometry/point.ts';
import type { Unit } from '../../units/unit.ts';
import { readLength } from './read-values.ts';
import type { YamlNode } from './yaml-node.ts';

/** A point, and its lengths as they were written, for messages. */
export interface Coordinate {
  readonly at: Point;
  readonly station: string;
  readonly offset: string;
  readonly entry: YamlNode;
}

const POINT_CURE = 'Write a point as [station, offset], such as [8, 3].';

/** On one edge: a nail every 100 mm of a 20 m rail, more than anyone drives. It bounds the work. */
export const MAX_PINS = 200;

/** Undefined where a mistake is reported. */
export function readPoint(entry: YamlNode, unit: Unit): Coordinate | undefined {
  const items = entry.list(POINT_CURE, MAX_PINS);
  if (!items) return undefined;
  const [station, offset, ...more] = items;
  if (!station || !offset || more.length > 0) {
    const parted =
      items.length > 2 ? ' A comma separates the two, so write decimals with a point, such as 40.5.' : '';
    const wording = `a point has 2 lengths, not ${items.length}. ${POINT_CURE}${parted}`;
    return entry.report('job.point', wording);
  }
  const x = readLength(station, unit);
  const y = readLength(offset, unit);
  if (x === undefined || y === undefined) return undefined;
  const written = (length: YamlNode): string => length.text(POINT_CURE) ?? '';
  return { at: point(x, y), station: written(station), offset: written(offset), entry };
}

export function readPoints(entry: YamlNode, unit: Unit): Coordinate[] | undefined {
  if (!entry.holdsLists()) {
    const single = readPoint(entry, unit);
    return single && [single];
  }
  const pins = entry.list(POINT_CURE, MAX_PINS)?.map((item) => readPoint(item, unit));
  const known = pins?.filter((pin) => pin !== undefined);
  return known?.length === pins?.length ? known : undefined;
}
