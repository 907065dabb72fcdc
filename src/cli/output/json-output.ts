import type { Point } from '../../curves/geometry/point.ts';
import type { CompoundAngles } from '../../part/ends/compound-angles.ts';
import { degrees } from '../../units/number-format.ts';

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
