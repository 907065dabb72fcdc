import { isHanded } from '../../part/handedness.ts';
import type { Part } from '../../part/part.ts';
import type { Layout } from '../../tiling/layout.ts';
import { typesetMeasures } from '../../units/typeset.ts';

/** A half pattern needs none: rotated end for end, the part is its own mirror image. */
export const needsMirrorImage = (part: Part): boolean =>
  part.pair === 'mirrored' && isHanded(part) && part.shape.type !== 'half';

export const patternTitle = ({ name }: Part, { mirrored }: Pick<Layout, 'mirrored'>): string =>
  typesetMeasures(mirrored ? `${name}, mirrored` : name);

export const quantityWords = (part: Part): string =>
  needsMirrorImage(part) ? `${part.quantity / 2} of ${part.quantity} copies` : `quantity ${part.quantity}`;

const FACE_MARK_WORDS =
  'Copy the loop onto the face and the V onto the edge of each part. Two parts placed face to face, with their V marks together, are mirror images.';

export function pairWords(part: Part, layout: Layout): string[] {
  const { pair, shape } = part;
  if (pair === undefined) return [];
  if (pair === 'identical')
    return [`Make all ${part.quantity} copies from this pattern, with the same face up each time.`];
  if (needsMirrorImage(part)) return [mirroredPatternWords(layout), FACE_MARK_WORDS];
  if (shape.type === 'half')
    return ['Both parts of the pair come from this pattern, because the part is its own mirror image.'];
  return ['For the mirrored part, flip the pattern over on its reference line.', FACE_MARK_WORDS];
}

const mirroredPatternWords = ({ mirrored }: Layout): string =>
  mirrored
    ? 'This is the mirrored pattern. The names of its sheets end in m. Do not mix them with the sheets of the first pattern. Its stations and offsets are the same, but on paper the offsets run the other way. At the saw its cuts lean the other way.'
    : 'This is the first pattern of a pair. The mirrored pattern follows, and the names of its sheets end in m. Do not mix the two.';
