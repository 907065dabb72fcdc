import type { Box } from '../curves/geometry/bounds.ts';
import type { CurvePoint } from '../curves/geometry/evaluate.ts';
import { minimizeAlong } from '../curves/geometry/extrema.ts';
import type { Segment } from '../curves/geometry/pieces/piece.ts';
import { JOIN_MM } from '../curves/geometry/tolerance.ts';
import type { Stock } from '../job/job.ts';
import { Fault } from '../units/fault.ts';
import { present } from '../units/lists.ts';

/** Only the sizes count, as the maker chooses where the part lies across its stock. */
export function stockFaults(lines: readonly Segment[], box: Box, stock: Stock): Fault[] {
  const [length, width] = [box.right - box.left, box.top - box.bottom];
  const { length: stockLength = length, width: stockWidth = width } = stock;
  const tooShort = (): Fault =>
    new Fault(
      'stock.too-short',
      (mm) =>
        `the part is ${mm(length)} long, from station ${mm(box.left)} to ${mm(box.right)}, but the stock is ${mm(stockLength)}. ` +
        `Use stock of ${mm(length)} or more, or make the part shorter.`,
      'stock.length',
    );
  const tooNarrow = (): Fault => {
    const [low, high] = [lowestPoint(lines, 1), lowestPoint(lines, -1)];
    return new Fault(
      'stock.too-narrow',
      (mm) =>
        `the part is ${mm(width)} wide, but the stock is ${mm(stockWidth)}. ` +
        `The part goes from offset ${mm(low.y)} at station ${mm(low.x)} to ${mm(high.y)} at station ${mm(high.x)}. ` +
        `Use stock of ${mm(width)} or more, or make the part narrower.`,
      'stock.width',
    );
  };
  return present(length > stockLength + JOIN_MM && tooShort(), width > stockWidth + JOIN_MM && tooNarrow());
}

const EXTREME_SAMPLES = 16;

function lowestPoint(lines: readonly Segment[], up: 1 | -1): CurvePoint {
  const places = lines.map((segment) => minimizeAlong(segment, ({ y }) => up * y, EXTREME_SAMPLES));
  return places.reduce((a, b) => (up * b.y < up * a.y ? b : a));
}
