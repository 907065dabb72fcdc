import type { Part } from './part.ts';

/** If not, the second of a mirrored pair is the first, lying on its other face. */
export const isHanded = ({ ends, joints }: Pick<Part, 'ends' | 'joints'>): boolean =>
  joints.length > 0 || (ends?.some(({ angles }) => angles.splay !== 0) ?? false);
