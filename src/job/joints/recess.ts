import {
  add,
  direction,
  dot,
  leftNormal,
  type Point,
  point,
  scale,
  subtract,
} from '../../curves/geometry/point.ts';
import type { ShowLength } from '../../units/fault.ts';
import { showAngle } from '../../units/number-format.ts';
import type { Unit } from '../../units/unit.ts';
import { omitUndefined, readAngle, readOptionalLength, readWord } from '../parse/read-values.ts';
import type { YamlMapping } from '../parse/yaml-mapping.ts';
import { readMiddle, requireLength } from './read-measures.ts';

/** A mortise, or a slot with round ends: its middle, its overall size, its rotation (radians). */
export interface Recess {
  readonly at: Point;
  readonly length: number;
  readonly width: number;
  readonly turn: number;
  /** Turned until its length is plumb in the standing part. */
  readonly level?: true;
  /** Absent: through the wood. */
  readonly depth?: number;
}

export const RECESS = {
  keys: ['at', 'out', 'length', 'width', 'turn', 'level', 'depth', 'face', 'label'],
  place: ({ at }: Recess) => ({ at: at.x, out: at.y }),
  size: ({ length, width, turn, level, depth }: Recess, show: ShowLength) => [
    `${show(length)} × ${show(width)}`,
    ...(level ? ['level'] : []),
    ...(turn === 0 ? [] : [`rotated ${showAngle(turn)}`]),
    depthWords(depth, show),
  ],
  lengths: ({ length, width }: Recess) => [length, width],
  angles: ({ turn }: Recess, side: 1 | -1) => [side * turn],
} as const;

export const depthWords = (depth: number | undefined, show: ShowLength): string =>
  depth === undefined ? 'through' : `${show(depth)} deep`;

/** The sizes of a mortise or a slot; undefined where a mistake is reported. */
export function readRecess(mapping: YamlMapping, unit: Unit): Recess | undefined {
  const at = readMiddle(mapping, unit);
  const length = requireLength(mapping, 'length', unit);
  const width = requireLength(mapping, 'width', unit);
  const turn = mapping.read('turn', readAngle, 0);
  const level = mapping.read('level', (entry) => readWord(entry, ['true', 'false'] as const));
  const depth = readOptionalLength(mapping, 'depth', unit);
  if (level === 'true') {
    const wording = 'a level joint has its own angle. Use level or turn, not both.';
    mapping.get('turn')?.reportAtName('job.one-of', wording);
  }
  if (!at || length === undefined || width === undefined || turn === undefined) return undefined;
  return { at, length, width, turn, ...(level === 'true' && { level: true }), ...omitUndefined({ depth }) };
}

/** A recess's own frame: x along it, y across, from its middle. */
export function recessFrame({ at, turn }: Recess) {
  const way = direction(turn);
  return {
    toFace: ({ x, y }: Point): Point => add(at, add(scale(way, x), scale(leftNormal(way), y))),
    toRecess: (p: Point): Point => {
      const q = subtract(p, at);
      return point(dot(q, way), dot(q, leftNormal(way)));
    },
  };
}
