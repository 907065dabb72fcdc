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
  'Copy the loop onto the face and the V onto the edge of each part. Placed face to face with their V marks together, the two parts are mirror images.';

export function pairWords(part: Part, mirrored: Layout | undefined): string[] {
  const { pair, shape } = part;
  if (pair === undefined) return [];
  if (pair === 'identical')
    return [`Make all ${part.quantity} copies from this pattern, with the same face up each time.`];
  if (needsMirrorImage(part)) return [...(mirrored ? [MIRRORED_WORDS] : []), FACE_MARK_WORDS];
  if (shape.type === 'half')
    return ['Both parts of the pair come from this pattern, because the part is its own mirror image.'];
  return ['For the mirrored part, flip the pattern over on its reference line.', FACE_MARK_WORDS];
}

const MIRRORED_WORDS =
  'The names of the mirrored sheets end in m. Tape and check both patterns in the same way. On the mirrored one, offsets run the other way and cuts lean the other way.';
