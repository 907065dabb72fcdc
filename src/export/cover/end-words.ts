import type { EndAngles } from '../../part/ends/compound-angles.ts';
import { isSquare, longAndShort, type PartEnd } from '../../part/ends/end-planes.ts';
import type { Part } from '../../part/part.ts';
import { cornerWords } from '../../shop/words/cut-angle-words.ts';
import { angleWords } from './joint-words.ts';

/** Off the rule, without its unit. */
type Show = (mm: number) => string;

/** The ends that are not cut square, of a part that has ends. */
export const leaningEnds = ({ ends }: Pick<Part, 'ends'>): readonly PartEnd[] =>
  (ends ?? []).filter((end) => !isSquare(end));

export const ANGLE_HEAD = ['end', 'miter', 'blade tilt', 'rake', 'splay', 'lean', 'sight line'] as const;

/** What each end is set by, on the saw and as a stance; "square" for one that is. */
export const angleRow = (end: PartEnd): string[] =>
  isSquare(end)
    ? [end.side, 'square', 'upright']
    : [
        end.side,
        ...(['miter', 'bevel', 'rake', 'splay', 'lean', 'sight'] as const).map((name: keyof EndAngles) =>
          angleWords(end.angles[name]),
        ),
      ];

export const SIGNS =
  'Over 0 the cut leans towards the left end: miter and rake going away from the reference line, blade tilt and splay going to the marked face.';

export const SIGHT =
  'Lean is the whole angle off square. The sight line is the way it leans, seen along the part: 0° away from the reference line, 90° to the marked face.';

/** "long point: station 34, offset 2, on the marked face; short point: station 33 5⁄8, offset 0, on the other face". */
export function reachWords(end: PartEnd, show: Show): string {
  const { long, short } = longAndShort(end);
  return `long point: ${cornerWords(long, show)}; short point: ${cornerWords(short, show)}`;
}
