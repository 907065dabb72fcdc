import { type Point, point } from '../../curves/geometry/point.ts';
import type { Unit } from '../../units/unit.ts';
import { readLength } from '../parse/read-values.ts';
import type { YamlMapping } from '../parse/yaml-mapping.ts';

const MEANINGS = {
  at: 'station of its middle, from the left end',
  out: 'offset of its middle, from the reference line',
  length: 'overall length, along the part',
  width: 'overall width, across the part',
  diameter: 'diameter of the bit',
} as const;

/** A length (mm) that must be given. */
export function requireLength(
  mapping: YamlMapping,
  name: keyof typeof MEANINGS,
  unit: Unit,
  sign: 'any' | 'positive' = 'positive',
): number | undefined {
  const entry = mapping.require(name, `Give the ${MEANINGS[name]}, such as "${name}: 1/2".`);
  return entry && readLength(entry, unit, sign);
}

export function readMiddle(mapping: YamlMapping, unit: Unit): Point | undefined {
  const x = requireLength(mapping, 'at', unit, 'any');
  const y = requireLength(mapping, 'out', unit, 'any');
  return x === undefined || y === undefined ? undefined : point(x, y);
}
