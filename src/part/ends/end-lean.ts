import { lowerFirst } from '../edge.ts';
import type { Part } from '../part.ts';
import type { PartEnd } from './end-planes.ts';

/** An edge, by its name, and a face; absent where the cut is square to it. */
export interface EndSides {
  readonly edge?: string;
  readonly on?: 'face' | 'back';
}

/** Where an end is long. Stood on it, the part leans the opposite way: its foot is out at the long sides. */
export function endLean({ side, angles }: PartEnd, { edges: [edge, other = edge] }: Pick<Part, 'edges'>) {
  const [lower, upper] = lowerFirst([edge, other]);
  const out = side === 'right' ? 1 : -1;
  const sides = (way: number): EndSides => ({
    ...(angles.rake !== 0 && { edge: way * angles.rake > 0 ? lower.name : upper.name }),
    ...(angles.splay !== 0 && { on: way * angles.splay > 0 ? 'back' : 'face' }),
  });
  return { longAt: sides(out), leansTowards: sides(-out) };
}
