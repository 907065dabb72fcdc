import type { Point } from '../../curves/geometry/point.ts';
import { isCuttingJoint } from '../../part/joints/joint-shape.ts';
import { printedLength } from '../drawing/dimensions.ts';
import { type Item, type LineStyle, polyline, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth } from '../drawing/text-width.ts';
import { type OccupiedSpace, reserveNear } from '../labels/free-space.ts';
import { hasFaceMark } from './face-mark.ts';
import type { SheetContext } from './sheet-context.ts';

const WORDS_MM = 3.2;
const SAMPLE_MM = 14;
const LEGEND_WHITE_MM = 1.5;

/** What each kind of line means. */
export function legend(view: SheetContext, room: OccupiedSpace, wished: Point): Item[] {
  const rows = legendEntries(view);
  const pitch = WORDS_MM * LINE_SPACING * 1.1;
  const width = SAMPLE_MM + 3 + Math.max(...rows.map(([, text]) => textWidth(text, WORDS_MM)));
  const height = rows.length * pitch + 2 * LEGEND_WHITE_MM;
  const box = reserveNear(room, { x: wished.x - width, y: wished.y }, width, height);
  if (!box) return [];
  return rows.flatMap(([style, text], i) => {
    const y = box.top - LEGEND_WHITE_MM - pitch * (i + 0.75);
    return [
      polyline(style, [
        { x: box.left, y: y + 1 },
        { x: box.left + SAMPLE_MM, y: y + 1 },
      ]),
      words(text, { x: box.left + SAMPLE_MM + 3, y }, WORDS_MM),
    ];
  });
}

function legendEntries({ part, sheet, dimensions, notes }: SheetContext): [LineStyle, string][] {
  const saw = part.sawAllowance > 0;
  return [
    ['cut', notes?.line ?? (saw ? 'finished line' : 'line to cut')],
    ...(notes ? ([['station', notes.referenceCurve.label]] as [LineStyle, string][]) : []),
    ...(saw
      ? ([['saw', `saw line, ${printedLength(part.sawAllowance, part.rule)} outside it`]] as [
          LineStyle,
          string,
        ][])
      : []),
    ...(part.shape.type === 'half'
      ? ([['centre', 'centre line: flip the pattern over on it']] as [LineStyle, string][])
      : []),
    ...(dimensions.joints.some(isCuttingJoint)
      ? ([['joint', 'joint on the marked face']] as [LineStyle, string][])
      : []),
    ...(dimensions.foldTabs.length > 0
      ? ([['fold', 'fold over the edge beside a bevel']] as [LineStyle, string][])
      : []),
    ...(hasFaceMark(part)
      ? ([['mark', 'loop: marked face; V: reference edge']] as [LineStyle, string][])
      : []),
    ...(Object.keys(sheet.neighbours).length > 0
      ? ([['trim', 'edge of a trimmed sheet']] as [LineStyle, string][])
      : []),
  ];
}
