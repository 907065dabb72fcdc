import type { Point } from '../curves/point.ts';
import { isCutting } from '../part/joint-shape.ts';
import type { Part } from '../part/part.ts';
import type { Layout } from '../tiling/layout.ts';
import { scaleWords } from '../tiling/printer-scale.ts';
import { type Item, type LineStyle, polyline, words } from './drawing.ts';
import { hasFaceMark } from './face-mark.ts';
import { patternTitle } from './pair-words.ts';
import { type Room, takeNear } from './place.ts';
import { printed } from './setting-out.ts';
import type { SheetView } from './sheet-view.ts';
import { fitted, LEADING, textWidth } from './type.ts';

const SHEET_NAME_MM = 14;
const PART_NAME_MM = 5;
const SMALL_MM = 3.2;
const GAP_MM = 4;

/** How wide the part's name may run, mm, to try in turn; 0 leaves it out and stacks the rest. */
const PART_NAME_WIDTHS_MM = [75, 50, 30, 0];

/** The sheet's name, large, with the part, the page and the pattern's code. Undefined without room. */
export function nameBlock({ part, layout, sheet }: SheetView, rooms: readonly Room[]): Item[] | undefined {
  const page = layout.sheets.indexOf(sheet) + 1;
  const small = [`sheet ${page} of ${layout.sheets.length} · code ${layout.code}`, ...notes(part, layout)];
  for (const room of rooms)
    for (const most of PART_NAME_WIDTHS_MM) {
      const items =
        most > 0
          ? beside(room, sheet.name, patternTitle(part, layout), small, most)
          : stacked(room, sheet.name, small);
      if (items) return items;
    }
  return undefined;
}

/** What else a sheet must say of itself: it is not to be taken for one of another print. */
const notes = ({ shape }: Part, { printer, mirrored }: Layout): string[] => [
  ...(mirrored ? ['mirrored pattern'] : []),
  ...(shape.type === 'half' ? ['half pattern, to flip on the centre line'] : []),
  ...(printer ? [`for ${printer.name ?? 'a printer'} at ${scaleWords(printer)}`] : []),
];

const SMALL_PITCH_MM = SMALL_MM * LEADING;

/** Small words, the last of them standing on a baseline. */
const smallWords = (lines: readonly string[], { x, y }: Point): Item[] =>
  lines.map((line, i) => words(line, { x, y: y + (lines.length - 1 - i) * SMALL_PITCH_MM }, SMALL_MM));

const NAME_HEIGHT_MM = SHEET_NAME_MM * 0.8;

const topLeft = ({ area }: Room, height: number): Point => ({ x: area.left, y: area.top - height });

function beside(
  room: Room,
  sheet: string,
  part: string,
  small: readonly string[],
  most: number,
): Item[] | undefined {
  const indent = textWidth(sheet, SHEET_NAME_MM) + GAP_MM;
  const name = fitted(part, PART_NAME_MM, most);
  const width = indent + Math.max(textWidth(name, PART_NAME_MM), ...small.map(smallWidth));
  const below = (small.length - 1) * SMALL_PITCH_MM;
  const height = NAME_HEIGHT_MM + below;
  const box = takeNear(room, topLeft(room, height), width, height);
  if (!box) return undefined;
  const [x, y] = [box.left + indent, box.bottom + 1];
  return [
    words(sheet, { x: box.left, y: y + below }, SHEET_NAME_MM),
    words(name, { x, y: y + below + 5.4 }, PART_NAME_MM),
    ...smallWords(small, { x, y }),
  ];
}

const smallWidth = (line: string): number => textWidth(line, SMALL_MM);

function stacked(room: Room, sheet: string, small: readonly string[]): Item[] | undefined {
  const width = Math.max(textWidth(sheet, SHEET_NAME_MM), ...small.map(smallWidth));
  const below = small.length * SMALL_PITCH_MM;
  const height = NAME_HEIGHT_MM + below;
  const box = takeNear(room, topLeft(room, height), width, height);
  if (!box) return undefined;
  const [x, y] = [box.left, box.bottom + 1];
  return [words(sheet, { x, y: y + below }, SHEET_NAME_MM), ...smallWords(small, { x, y })];
}

const SAMPLE_MM = 14;
const LEGEND_WHITE_MM = 1.5;

/** What each kind of line means. */
export function legend(view: SheetView, room: Room, wished: Point): Item[] {
  const rows = legendRows(view);
  const pitch = SMALL_MM * LEADING * 1.1;
  const width = SAMPLE_MM + 3 + Math.max(...rows.map(([, text]) => textWidth(text, SMALL_MM)));
  const height = rows.length * pitch + 2 * LEGEND_WHITE_MM;
  const box = takeNear(room, { x: wished.x - width, y: wished.y }, width, height);
  if (!box) return [];
  return rows.flatMap(([style, text], i) => {
    const y = box.top - LEGEND_WHITE_MM - pitch * (i + 0.75);
    return [
      polyline(style, [
        { x: box.left, y: y + 1 },
        { x: box.left + SAMPLE_MM, y: y + 1 },
      ]),
      words(text, { x: box.left + SAMPLE_MM + 3, y }, SMALL_MM),
    ];
  });
}

function legendRows({ part, sheet, setting }: SheetView): [LineStyle, string][] {
  const saw = part.sawAllowance > 0;
  return [
    ['cut', saw ? 'finished line' : 'line to cut'],
    ...(saw
      ? ([['saw', `saw line, ${printed(part.sawAllowance, part.rule)} outside it`]] as [LineStyle, string][])
      : []),
    ...(part.shape.type === 'half'
      ? ([['centre', 'centre line: flip the pattern over on it']] as [LineStyle, string][])
      : []),
    ...(setting.joints.some(isCutting)
      ? ([['joint', 'joint on the marked face']] as [LineStyle, string][])
      : []),
    ...(setting.strips.length > 0
      ? ([['fold', 'fold over the edge beside a tilted end']] as [LineStyle, string][])
      : []),
    ...(hasFaceMark(part)
      ? ([['mark', 'loop: marked face; V: reference edge']] as [LineStyle, string][])
      : []),
    ...(Object.keys(sheet.neighbours).length > 0
      ? ([['trim', 'edge of a trimmed sheet']] as [LineStyle, string][])
      : []),
  ];
}

/** Lengths to try for the grain arrow, mm. */
const ARROW_MM = [60, 40, 25];
const HEAD_MM = 3;

/** The arrow and its word, with white above and below. */
const ARROW_HEIGHT_MM = 2.6 * SMALL_MM;

/** A double arrow along the reference line: the way the grain should run. */
export function grainArrow({ sheet }: SheetView, room: Room, wished: Point): Item[] {
  const [cos, sin] = sheet.toSheet;
  for (const length of ARROW_MM) {
    const height = ARROW_HEIGHT_MM;
    const width = length;
    const [w, h] = [
      Math.abs(cos) * width + Math.abs(sin) * height,
      Math.abs(sin) * width + Math.abs(cos) * height,
    ];
    const box = takeNear(room, { x: wished.x - w / 2, y: wished.y - h / 2 }, w, h);
    if (!box) continue;
    const centre = { x: (box.left + box.right) / 2, y: (box.bottom + box.top) / 2 };
    const at = (x: number, y: number): Point => ({
      x: centre.x + cos * x - sin * y,
      y: centre.y + sin * x + cos * y,
    });
    const low = -SMALL_MM / 2;
    const end = length / 2;
    const head = (side: 1 | -1) =>
      polyline('rule', [
        at(side * (end - HEAD_MM), low + 1.1),
        at(side * end, low),
        at(side * (end - HEAD_MM), low - 1.1),
      ]);
    const angle = Math.atan2(sin, cos);
    return [
      polyline('rule', [at(-end, low), at(end, low)]),
      head(1),
      head(-1),
      words('grain', at(0, low + 1.2), SMALL_MM, 'middle', angle),
    ];
  }
  return [];
}
