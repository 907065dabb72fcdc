import { isSquare } from '../../part/ends/end-planes.ts';
import type { Part } from '../../part/part.ts';
import type { LengthFormat } from '../../units/graduation.ts';
import { present } from '../../units/lists.ts';
import type { Sawing } from '../saw/advise-sawing.ts';
import { type SafetyId, type SafetyNote, safetyNote } from './safety.ts';

/** A clamp or a sled holds a shorter part, not a hand: 12 in. Common practice. */
const SHORT_PART_MM = 305;

/** What to heed at the saw for this part; what stops the work comes first. */
export function sawCautions(
  part: Part,
  { edges, height }: Pick<Sawing, 'edges' | 'height'>,
  { unit, exact }: LengthFormat,
): SafetyNote[] {
  const thickness = part.stock?.thickness ?? 0;
  const isCurved = edges.some(({ pieces }) => pieces.some(({ type }) => type !== 'line'));
  const isLeaning = part.ends?.some((end) => !isSquare(end)) ?? false;
  const isShort = part.bounds.right - part.bounds.left < SHORT_PART_MM;
  const ids = present<SafetyId>(
    'saw.manual',
    'saw.fingers',
    'saw.guide',
    isCurved && 'saw.back-out',
    isLeaning && 'saw.leaning',
    isShort && 'saw.short',
    'saw.wear',
    'saw.stop',
  );
  return present<SafetyNote>(
    thickness > height && {
      code: 'saw.too-high',
      level: 'caution',
      message:
        `The part is ${exact(thickness)} thick, but only ${exact(height)} fits under the guide. ` +
        'Saw the part in layers, or use a bow saw.',
    },
    ...ids.map((id) => safetyNote(id, unit)),
  );
}

/** Plies are sawn off standing on edge. */
export const tooHighForSaw = (width: number, height: number, { exact }: LengthFormat): SafetyNote[] =>
  width <= height
    ? []
    : [
        {
          code: 'saw.too-high',
          level: 'caution',
          message:
            `The plies are ${exact(width)} wide, but only ${exact(height)} fits under the guide. ` +
            'Saw them narrower, and glue two halves side by side.',
        },
      ];
