import { transformPath } from '../../curves/geometry/transform.ts';
import type { Footprint } from '../stock/footprint.ts';
import { minSeparation, type Silhouette, silhouetteOf } from './min-separation.ts';
import type { StackPlace } from './stacking.ts';

/**
 * The least distance from a column to the next one like it: columns are laid along the board as copies are across it.
 * Rows repeat in pairs, so each pair of neighbors has one of the first two rows.
 */
export function columnPitch(
  rows: readonly StackPlace[],
  paths: readonly [Footprint['paths'], Footprint['paths']],
  { footprint, gap }: { readonly footprint: Footprint; readonly gap: number },
): number {
  const [own, other] = paths.map((all) =>
    silhouetteOf(all.map((path) => transformPath(path, [0, 1, 1, 0, 0, 0]))),
  ) as [Silhouette, Silhouette];
  const sides = ({ other: isOther }: StackPlace): Silhouette => (isOther ? other : own);
  const near = (p: StackPlace, q: StackPlace): boolean => Math.abs(p.y - q.y) < footprint.width + gap + 1;
  const pitches = rows
    .slice(0, 2)
    .flatMap((p) =>
      rows
        .filter((q) => near(p, q))
        .flatMap((q) => [
          minSeparation(sides(p), sides(q), q.y - p.y, gap),
          minSeparation(sides(q), sides(p), p.y - q.y, gap),
        ]),
    );
  return Math.min(Math.max(...pitches), footprint.length + gap);
}
