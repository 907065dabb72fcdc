import type { LineSegment, Piece, Segment } from '../curves/geometry/pieces/piece.ts';
import type { Point } from '../curves/geometry/point.ts';
import type { Part, PartShape } from './part.ts';

/** `centre` is the line to flip a half on, `back` where a tilted end comes out on the other face. */
export type LineRole = 'finished' | 'saw' | 'chord' | 'centre' | 'back';

export interface PartLine<Role extends LineRole = LineRole> {
  readonly role: Role;
  readonly pieces: readonly Piece[];
  readonly path: readonly Segment[];
  readonly closed: boolean;
}

export const partLines = <Role extends LineRole>(part: Part, roles: readonly Role[]): PartLine<Role>[] =>
  roles.flatMap((role) => linesFor(part, role).map((line) => ({ role, ...line })));

function linesFor({ shape, exact, saw, ends }: Part, role: LineRole): Omit<PartLine, 'role'>[] {
  const closed = shape.type === 'closed';
  const straight = ([from, to]: readonly [Point, Point]) => {
    const line: LineSegment[] = [{ type: 'line', from, to }];
    return { pieces: line, path: line, closed: false };
  };
  switch (role) {
    case 'finished':
      return [{ pieces: exact, path: finishedLine(shape), closed }];
    case 'saw':
      return saw.length > 0 ? [{ pieces: saw, path: saw, closed }] : [];
    case 'chord': {
      const chord = patternChord(shape);
      return chord ? [straight(chord)] : [];
    }
    case 'centre':
      return shape.type === 'half' ? [straight(shape.centre)] : [];
    case 'back':
      return (ends ?? []).filter(({ angles }) => angles.splay !== 0).map(({ back }) => straight(back));
  }
}

export const finishedLine = (shape: PartShape): readonly Segment[] =>
  shape.type === 'closed' ? shape.outline : shape.line;

export const patternChord = (shape: PartShape): readonly [Point, Point] | undefined =>
  shape.type === 'closed' ? undefined : shape.chord;
