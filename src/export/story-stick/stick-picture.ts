import type { Box } from '../../curves/geometry/bounds.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { LINE_SPACING } from '../drawing/text-width.ts';
import type { Block } from '../labels/free-space.ts';
import type { LaidStoryStick } from './stick-layout.ts';

const WIDTH_MM = 84;
const TYPE_MM = 3;
const STICK = { bottom: 10, top: 16 } as const;
const HEIGHT_MM = 44;
const HEAD_MM = 2;
/** The line over the stick, and where along it an offset is shown; a picture, to no scale. */
const LINE = [point(4, 24), point(26, 42), point(54, 42), point(80, 21)] as const;
const SHOWN_MM = 40.6;
const RISE_MM = 37;

export const stickPicture = (stick: LaidStoryStick): Block => ({
  width: WIDTH_MM,
  height: HEIGHT_MM,
  draw: (box) => drawPicture(stick, box),
});

function drawPicture({ from, placed }: LaidStoryStick, box: Box): Item[] {
  const isBelow = placed.every(({ out }) => out < 0);
  const on = (x: number, y: number): Point => point(box.left + x, box.bottom + y);
  const at = (x: number, y: number): Point => on(x, isBelow ? HEIGHT_MM + STICK.bottom - y : y);
  const [a, b, c, d] = LINE.map(({ x, y }) => at(x, y)) as [Point, Point, Point, Point];
  const { bottom, top } = STICK;
  return [
    polyline('rule', [at(0, bottom), at(WIDTH_MM, bottom), at(WIDTH_MM, top), at(0, top)], true),
    ...[4, 22, SHOWN_MM, 60, 80].map((x) => polyline('rule', [at(x, top), at(x, top - 2)])),
    { type: 'stroke', style: 'cut', path: [{ type: 'cubic', controls: [a, b, c, d] }] },
    polyline('mark', [at(SHOWN_MM, top), at(SHOWN_MM, RISE_MM)]),
    polyline('mark', [
      at(SHOWN_MM - HEAD_MM / 2, RISE_MM - HEAD_MM),
      at(SHOWN_MM, RISE_MM),
      at(SHOWN_MM + HEAD_MM / 2, RISE_MM - HEAD_MM),
    ]),
    words('offset', at(SHOWN_MM + 1.6, 22), TYPE_MM),
    words('edge of the part', at(22, 38.5), TYPE_MM, 'end'),
    ...captions(from).map((line, i) =>
      words(line, on(0, bottom - TYPE_MM * LINE_SPACING * (i + 1)), TYPE_MM),
    ),
  ];
}

const captions = (from: LaidStoryStick['from']): string[] => [
  `Stick on ${from === 'chord' ? 'the chord' : 'the reference line'}, working edge toward the part.`,
  'Measure each offset square from the working edge.',
];
