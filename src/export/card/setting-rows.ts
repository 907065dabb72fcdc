import { type Point, point } from '../../curves/geometry/point.ts';
import { BASELINE_SHARE, BODY_MM, blankRow, bodyRow, type TextRow } from '../cover/text-columns.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth, wrapText } from '../drawing/text-width.ts';

/** What a machine or a strip is set to, readable at arm's length, mm. */
const SETTING_SIZE_MM = 4.8;
const BAR_INDENT_MM = 3;
const BAR_MM = 1;
const SETTING_GAP_MM = 1.6;

/** A value that is set by hand, large, with a bar of our color before it and its notes below. */
export function settingRows(label: string, value: string, notes: readonly string[], width: number) {
  const inner = width - BAR_INDENT_MM;
  const labelWidth = textWidth(label, BODY_MM) + 2;
  const isBeside = textWidth(value, SETTING_SIZE_MM) <= inner - labelWidth;
  const values = isBeside ? [value] : wrapText(value, SETTING_SIZE_MM, inner);
  const [below, aside] = isBeside ? [0, labelWidth] : [BODY_MM * LINE_SPACING, 0];
  const lineHeight = SETTING_SIZE_MM * LINE_SPACING;
  const height = values.length * lineHeight + below;
  const setting: TextRow = {
    height: height + SETTING_GAP_MM / 2,
    withNext: notes.length > 0,
    draw: (left, top) => {
      const x = left + BAR_INDENT_MM;
      const first = top - SETTING_SIZE_MM * BASELINE_SHARE;
      const valueAt = (i: number): Point => point(x + aside, first - below - i * lineHeight);
      return [
        accentBar(left, top - 0.2, height - 0.8),
        words(label, { x, y: isBeside ? first : top - BODY_MM * BASELINE_SHARE }, BODY_MM),
        ...values.map((line, i) => words(line, valueAt(i), SETTING_SIZE_MM)),
      ];
    },
  };
  const lines = notes.flatMap((note) => wrapText(note, BODY_MM, inner));
  return [
    setting,
    ...lines.map((line, i): TextRow => {
      const isLast = i === lines.length - 1;
      const row = bodyRow(BAR_INDENT_MM, line);
      return { ...row, height: row.height + (isLast ? SETTING_GAP_MM / 2 : 0), withNext: !isLast };
    }),
    blankRow(SETTING_GAP_MM / 2),
  ];
}

function accentBar(left: number, top: number, height: number): Item {
  const [right, bottom] = [left + BAR_MM, top - height];
  const corners = [point(left, top), point(right, top), point(right, bottom), point(left, bottom)];
  return { ...polyline('mark', corners, true), filled: true };
}
