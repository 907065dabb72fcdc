import { transformPoint } from '../../curves/geometry/affine.ts';
import { add, direction, leftNormal, point, scale } from '../../curves/geometry/point.ts';
import { polygon } from '../../curves/geometry/transform.ts';
import type { Part } from '../../part/part.ts';
import type { Copy } from '../../shop/nesting/copy-placement.ts';
import type { Nesting } from '../../shop/nesting/nest-copies.ts';
import { Fault } from '../../units/fault.ts';
import { printedLength } from '../drawing/dimensions.ts';
import { type Words, words } from '../drawing/drawing.ts';
import { CAP_HEIGHT } from '../drawing/text-width.ts';
import { type FullSizeOptions, fullSizeLines, selectLayers } from './compose-full-size.ts';
import { copyNumber, placeTextInWood } from './copy-number.ts';
import { type FullLine, type FullSize, fullLine } from './full-size.ts';
import { letterScale, NAME_SIZE_MM, overallSizeWords, titleWords } from './full-size-marks.ts';

/** A nesting decides by itself which copies are mirrored. */
export interface OnBoardOptions extends Omit<FullSizeOptions, 'mirror'> {
  readonly board: number;
}

/** In the board's frame: x along it. @throws Fault `draw.no-such-board`, `draw.parallels-cross`, those of `fullSize` */
export function fullSizeOnBoard(part: Part, nesting: Nesting, options: OnBoardOptions): FullSize {
  const { board, only, parallel } = options;
  const onBoard = boardCopies(board, part, nesting);
  assertParallelsApart(parallel ?? 0, part, nesting);
  const numbers = numberLabels(part, onBoard, copiesBefore(nesting, board));
  const words = [...boardWords(part, nesting, board), ...numbers];
  const background = { lines: [boardLine(nesting)], words };
  const lines = fullSizeLines(part, parallel);
  const copies = onBoard.map(({ toBoard }) => toBoard);
  return selectLayers({ name: part.name, lines, words: [], copies, background }, only);
}

function boardCopies(board: number, part: Part, { boards, copiesOn }: Nesting): readonly Copy[] {
  const copies = copiesOn(board);
  if (copies.length > 0) return copies;
  const [all, cure] =
    boards === 1 ? ['one board', 'Use board 1.'] : [`${boards} boards`, `Use a number from 1 to ${boards}.`];
  throw new Fault(
    'draw.no-such-board',
    `board ${board} does not exist, because the ${part.quantity} copies fit on ${all}. ${cure}`,
    '--board',
  );
}

function assertParallelsApart(parallel: number, { sawAllowance }: Part, { gap, copiesOn }: Nesting): void {
  const least = 2 * (parallel - sawAllowance);
  if (least <= gap || copiesOn(1).length === 1) return;
  throw new Fault(
    'draw.parallels-cross',
    (mm) =>
      `the parallel lines of two copies would cross. They need ${mm(least)} between the saw lines, but the copies are ` +
      `${mm(gap)} apart. Leave ${mm(least - gap)} more between the copies.`,
    '--parallel',
  );
}

const boardLine = ({ board: { length, width } }: Nesting): FullLine =>
  fullLine({
    layer: 'board',
    style: 'rule',
    title: 'Board',
    exact: polygon([point(0, 0), point(length, 0), point(length, width), point(0, width)]),
    closed: true,
  });

function boardWords(part: Part, { board, boards, copiesOn }: Nesting, number: number): Words[] {
  const size = (mm: number): string => printedLength(mm, part.rule);
  const count = copiesOn(number).length;
  return titleWords(part, point(0, 0), [
    `Board ${number} of ${boards}: ${size(board.length)} long, ${size(board.width)} wide. Copies: ${count} of ${part.quantity}.`,
    overallSizeWords(part),
  ]);
}

const copiesBefore = ({ copiesOn }: Nesting, board: number): number =>
  Array.from({ length: board - 1 }, (_, i) => copiesOn(i + 1).length).reduce((a, b) => a + b, 0);

function numberLabels(part: Part, copies: readonly Copy[], already: number): Words[] {
  const wished = NAME_SIZE_MM * letterScale(part);
  return copies.flatMap((copy, i): Words[] => {
    const text = copyNumber(part, copy, already + i + 1);
    const place = placeTextInWood(part, text, wished);
    if (!place) return [];
    const turn = readableAngle(copy);
    const middle = transformPoint(copy.toBoard, place.middle);
    const foot = add(middle, scale(leftNormal(direction(turn)), (-place.size * CAP_HEIGHT) / 2));
    return [{ ...words(text, foot, place.size, 'middle', turn), layer: 'text' }];
  });
}

/** The way of a copy's reference line, read from below or from the right: more than -90° and up to 90°. */
function readableAngle({ toBoard: [a, b] }: Copy): number {
  const turn = Math.atan2(b, a);
  if (turn > Math.PI / 2 + RIGHT_ANGLE_TOLERANCE) return turn - Math.PI;
  return turn <= RIGHT_ANGLE_TOLERANCE - Math.PI / 2 ? turn + Math.PI : turn;
}

/** A turn of 90° stays one whatever its last bits say. */
const RIGHT_ANGLE_TOLERANCE = 1e-9;
