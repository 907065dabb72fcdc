import type { CompoundAngles } from '../../part/ends/compound-angles.ts';
import type { CutCorner } from '../../part/ends/end-planes.ts';

/** In the terminal's signs or in those of print. */
type ShowAngle = (radians: number) => string;

/** "miter 6°, blade tilt 4°", or "square": how to set the gauge and the saw. */
export function cutAngleWords({ miter, bevel }: CompoundAngles, show: ShowAngle): string {
  const told = [
    ...(miter === 0 ? [] : [`miter ${show(miter)}`]),
    ...(bevel === 0 ? [] : [`blade tilt ${show(bevel)}`]),
  ];
  return told.length === 0 ? 'square' : told.join(', ');
}

const FACES: Readonly<Record<CutCorner['on'], string>> = {
  face: 'the marked face',
  back: 'the other face',
  'both faces': 'both faces',
};

/** "station 17 5/32, offset 2 1/4, on the marked face". */
export const cutCornerWords = ({ x, y, on }: CutCorner, show: (mm: number) => string): string =>
  `station ${show(x)}, offset ${show(y)}, on ${FACES[on]}`;
