import { isHanded } from '../../part/handedness.ts';
import type { Part } from '../../part/part.ts';
import type { Layout } from '../../tiling/layout.ts';

/** A half pattern needs none: turned end for end, the part is its own mirror image. */
export const needsMirrorImage = (part: Part): boolean =>
  part.pair === 'mirrored' && isHanded(part) && part.shape.type !== 'half';

export const patternTitle = ({ name }: Part, { mirrored }: Pick<Layout, 'mirrored'>): string =>
  mirrored ? `${name}, mirrored` : name;

export const quantityWords = (part: Part): string =>
  needsMirrorImage(part) ? `make ${part.quantity / 2} of ${part.quantity} from it` : `make ${part.quantity}`;

const FACE_MARK_WORDS =
  'Copy the loop on to the face and the V on to the edge of every piece: two pieces laid face to face, their V marks together, are then mirror images all along.';

export function pairWords(part: Part, layout: Layout): string[] {
  const { pair, shape } = part;
  if (pair === undefined) return [];
  if (pair === 'identical')
    return [`Make all ${part.quantity} alike from this one pattern, the same face up each time.`];
  if (needsMirrorImage(part)) return [mirroredPatternWords(layout), FACE_MARK_WORDS];
  if (shape.type === 'half')
    return ['Both of the pair come from this pattern: turned end for end, one is the other.'];
  return ['Flip the pattern over on its reference line for the other of the pair.', FACE_MARK_WORDS];
}

const mirroredPatternWords = ({ mirrored }: Layout): string =>
  mirrored
    ? 'This is the mirrored pattern. Its sheets have an m behind their names: none belongs with the sheets of the first pattern. Its stations and offsets are those of the first, offsets growing the other way on paper; at the saw its cuts lean to the other hand.'
    : 'This is the first pattern of a pair. The mirrored pattern follows with sheets of its own, an m behind their names: keep the two apart.';
