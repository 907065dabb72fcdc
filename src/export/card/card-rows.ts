import { BODY_MM, type TextRow } from '../cover/text-columns.ts';
import { type Item, polyline, words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth, truncateToWidth, wrapText } from '../drawing/text-width.ts';

/** Figures to read off the wall at arm's length, mm. */
const FIGURE_SIZE_MM = 3.9;
/** What a machine or a strip is set to. */
const SETTING_SIZE_MM = 4.8;

/** High enough to write a figure by hand, mm. */
const ROW_MM = 6;
const BOX_HEIGHT_MM = 5;
/** From the foot of a row to the baseline of its figures. */
const BASELINE_MM = 1.7;

const BOX_WIDTH_MM = { min: 11.5, max: 24 } as const;
const CELL_GAP_MM = 3;

/** A column of figures, of empty boxes to write in beside them, or of what they are. */
export type TableColumn = { readonly head: string } & (
  | { readonly cells: readonly string[] }
  | { readonly boxes: readonly boolean[] }
  | { readonly notes: readonly string[] }
);

/** Notes are cut rather than take more than this from the boxes, mm. */
const MIN_NOTE_WIDTH_MM = 14;

const isBoxes = (column: TableColumn): column is Extract<TableColumn, { boxes: readonly boolean[] }> =>
  'boxes' in column;

/**
 * Figures with boxes to write in. Columns of words are as wide as their words; the boxes share what is left. Where
 * that is too little the figures are set smaller, and then the last columns are left out.
 * @param past how far notes may run into the white beside the table, mm, rather than be cut
 */
export function boxTable(columns: readonly TableColumn[], width: number, past = 0): TextRow[] {
  for (const size of [FIGURE_SIZE_MM, BODY_MM]) {
    const widths = columnWidths(columns, { width, past }, size);
    if (widths) return tableRows(columns, widths, size);
  }
  return columns.length > 1
    ? boxTable(columns.slice(0, -1), width, past)
    : tableRows(columns, [width], BODY_MM);
}

/** How wide a table is, and how far past that its notes may run, mm. */
interface TableWidth {
  readonly width: number;
  readonly past: number;
}

/** The widths of the columns in this type; undefined where the page is too narrow for it. */
function columnWidths(
  columns: readonly TableColumn[],
  { width, past }: TableWidth,
  size: number,
): number[] | undefined {
  const own = columns.map((column) => naturalWidth(column, size));
  const gaps = CELL_GAP_MM * (columns.length - 1);
  const sum = (which: (column: TableColumn) => boolean): number =>
    own.reduce((total, one, i) => total + (which(columns[i]!) ? one : 0), 0);
  const boxes = columns.filter(isBoxes).length;
  const notes = sum((column) => 'notes' in column);
  const inside = width - gaps - sum((column) => 'cells' in column);
  const over = notes + boxes * BOX_WIDTH_MM.min - inside;
  const left = inside + (notes > 0 ? Math.min(past, Math.max(0, over)) : 0);
  const note = Math.min(notes, left - boxes * BOX_WIDTH_MM.min);
  // Rather smaller figures than notes cut short.
  if (note < (size > BODY_MM ? notes : Math.min(notes, MIN_NOTE_WIDTH_MM))) return undefined;
  const box = Math.min(BOX_WIDTH_MM.max, (left - note) / Math.max(1, boxes));
  return own.map((one, i) => {
    const column = columns[i]!;
    return isBoxes(column) ? box : 'notes' in column ? note : one;
  });
}

function naturalWidth(column: TableColumn, size: number): number {
  const texts = 'cells' in column ? column.cells : 'notes' in column ? column.notes : [];
  const type = 'cells' in column ? size : BODY_MM;
  return Math.max(textWidth(column.head, BODY_MM), ...texts.map((text) => textWidth(text, type)));
}

function tableRows(columns: readonly TableColumn[], widths: readonly number[], size: number): TextRow[] {
  const lefts = widths.map((_, i) => widths.slice(0, i).reduce((sum, one) => sum + one + CELL_GAP_MM, 0));
  const heads = columns.map(({ head }, i) => truncateToWidth(head, BODY_MM, widths[i]! + ROUNDING_MM));
  const count = Math.max(...columns.map((column) => cellsOf(column).length));
  const headRow: TextRow = {
    height: BODY_MM * LINE_SPACING + 0.8,
    withNext: true,
    draw: (x, top) =>
      heads.flatMap((head, i) =>
        head === '' ? [] : [words(head, { x: x + lefts[i]!, y: top - BODY_MM }, BODY_MM)],
      ),
  };
  const row = (r: number): TextRow => ({
    height: ROW_MM,
    draw: (x, top) =>
      columns.flatMap((column, i): Item[] => {
        const [left, wide, cell] = [x + lefts[i]!, widths[i]!, cellsOf(column)[r]];
        if (typeof cell !== 'string') return cell ? [box(left, top, wide)] : [];
        const type = 'cells' in column ? size : BODY_MM;
        const text = truncateToWidth(cell, type, wide + ROUNDING_MM);
        return text === '' ? [] : [words(text, { x: left, y: top - ROW_MM + BASELINE_MM }, type)];
      }),
  });
  return [
    ...(heads.some((head) => head !== '') ? [headRow] : []),
    ...Array.from({ length: count }, (_, r) => row(r)),
  ];
}

/** Words just as wide as their column fit it, whatever the last bits say. */
const ROUNDING_MM = 1e-6;

const cellsOf = (column: TableColumn): readonly (string | boolean)[] =>
  'cells' in column ? column.cells : 'notes' in column ? column.notes : column.boxes;

const box = (left: number, top: number, width: number): Item => {
  const [low, high] = [top - ROW_MM + 0.5, top - ROW_MM + 0.5 + BOX_HEIGHT_MM];
  return polyline(
    'rule',
    [
      { x: left, y: low },
      { x: left + width, y: low },
      { x: left + width, y: high },
      { x: left, y: high },
    ],
    true,
  );
};

const BAR_INDENT_MM = 3;
const SETTING_GAP_MM = 1.6;

/** What the hand sets, large, with a bar of our colour before it, and the words that go with it below. */
export function settingRows(
  label: string,
  value: string,
  notes: readonly string[],
  width: number,
): TextRow[] {
  const inner = width - BAR_INDENT_MM;
  const labelWidth = textWidth(label, BODY_MM) + 2;
  const beside = textWidth(value, SETTING_SIZE_MM) <= inner - labelWidth;
  const values = beside ? [value] : wrapText(value, SETTING_SIZE_MM, inner);
  const high = SETTING_SIZE_MM * LINE_SPACING;
  const valueHeight = values.length * high + (beside ? 0 : BODY_MM * LINE_SPACING);
  const setting: TextRow = {
    height: valueHeight + SETTING_GAP_MM / 2,
    withNext: notes.length > 0,
    draw: (x, top) => {
      const first = top - SETTING_SIZE_MM * 0.95;
      const named = words(label, { x: x + BAR_INDENT_MM, y: beside ? first : top - BODY_MM * 0.95 }, BODY_MM);
      const below = beside ? 0 : BODY_MM * LINE_SPACING;
      return [
        accentBar(x, top - 0.2, valueHeight - 0.8),
        named,
        ...values.map((line, i) =>
          words(
            line,
            { x: x + BAR_INDENT_MM + (beside ? labelWidth : 0), y: first - below - i * high },
            SETTING_SIZE_MM,
          ),
        ),
      ];
    },
  };
  const lines = notes.flatMap((note) => wrapText(note, BODY_MM, inner));
  return [
    setting,
    ...lines.map((line, i): TextRow => {
      const last = i === lines.length - 1;
      return {
        height: BODY_MM * LINE_SPACING + (last ? SETTING_GAP_MM / 2 : 0),
        withNext: !last,
        draw: (x, top) => [words(line, { x: x + BAR_INDENT_MM, y: top - BODY_MM * 0.95 }, BODY_MM)],
      };
    }),
    { height: SETTING_GAP_MM / 2, blank: true, draw: () => [] },
  ];
}

/** Width of the bar that says: this is set by hand. */
const BAR_MM = 1;

function accentBar(left: number, top: number, height: number): Item {
  const corners = [
    { x: left, y: top },
    { x: left + BAR_MM, y: top },
    { x: left + BAR_MM, y: top - height },
    { x: left, y: top - height },
  ];
  return { ...polyline('mark', corners, true), filled: true };
}
