import { point, scale } from '../../curves/geometry/point.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import type { Item } from './drawing.ts';

/** About the lower left corner of the page, then moved so far right and up, mm. */
export function scaleItem(item: Item, k: number, right = 0, up = 0): Item {
  if (item.type === 'clip') throw new Error('a clip is not scaled');
  if (item.type === 'stroke') return { ...item, path: transformPath(item.path, [k, 0, 0, k, right, up]) };
  const { x, y } = scale(item.at, k);
  const fractions = item.fractions === undefined ? {} : { fractions: item.fractions * k };
  return { ...item, at: point(x + right, y + up), size: item.size * k, ...fractions };
}
