import { point } from '../../curves/geometry/point.ts';
import { BASELINE_SHARE, BODY_MM, keepTogether, type TextRow } from '../cover/text-columns.ts';
import { boxCorners, type Item, polyline, words } from '../drawing/drawing.ts';
import { CAP_HEIGHT, LINE_SPACING, textWidth, truncateToWidth, wrapText } from '../drawing/text-width.ts';

/** An empty box is to write in; `left` and `width` in mm from the table's left. */
interface TableCell {
  readonly left: number;
  readonly width: number;
  readonly size: number;
  readonly content: readonly string[] | 'box';
}

const BOX_FOOT_MM = 0.5;
/** Above and below a box in its row. */
const BOX_WHITE_MM = 1;

const tableRow = (cells: readonly TableCell[], height: number, baseline: number): TextRow => ({
  height,
  draw: (x, top) =>
    cells.flatMap(({ left, width, size, content }): Item[] =>
      content === 'box'
        ? [writingBox(x + left, top - height + BOX_FOOT_MM, width, height - BOX_WHITE_MM)]
        : content.map((line, i) =>
            words(line, { x: x + left, y: top - baseline - BODY_MM * LINE_SPACING * i }, size),
          ),
    ),
});

function writingBox(left: number, bottom: number, width: number, height: number): Item {
  const box = { left, right: left + width, bottom, top: bottom + height };
  return polyline('rule', boxCorners(box), true);
}

const widestText = (texts: readonly string[], size: number): number =>
  Math.max(...texts.map((text) => textWidth(text, size)));

function placeColumns<T extends { readonly width: number }>(columns: readonly T[], gap: number) {
  let left = 0;
  const placed = columns.map((column) => {
    const at = { ...column, left };
    left += column.width + gap;
    return at;
  });
  return { placed, end: left };
}

const WORD_GAP_MM = 4;
const HEAD_GAP_MM = 1.6;
const MIN_LAST_CELL_MM = 15;

/** A table as narrow as its words, kept together; the last cell of a row may run to several lines. */
export function wordTable(body: readonly (readonly string[])[], width: number, head?: readonly string[]) {
  const rows = head ? [head, ...body] : body;
  const count = Math.max(...rows.map((row) => row.length));
  const columns = Array.from({ length: count }, (_, i) => {
    const texts = rows.map((row) => row[i] ?? '');
    return { width: widestText(texts, BODY_MM) };
  });
  const { placed, end } = placeColumns(columns, WORD_GAP_MM);
  const drawn = rows.map((row) => {
    const cells = placed.slice(0, row.length).map((column, i): TableCell => {
      const text = row[i] ?? '';
      const room = Math.max(MIN_LAST_CELL_MM, width - column.left);
      return { ...column, size: BODY_MM, content: i === count - 1 ? wrapText(text, BODY_MM, room) : [text] };
    });
    const lines = Math.max(1, ...cells.map(({ content }) => content.length));
    return tableRow(cells, BODY_MM * LINE_SPACING * lines, BODY_MM * BASELINE_SHARE);
  });
  const [first, ...others] = drawn;
  return keepTogether(head && first ? [first, headRule(Math.min(width, end)), ...others] : drawn);
}

const headRule = (width: number): TextRow => ({
  height: HEAD_GAP_MM,
  draw: (x, top) => [polyline('rule', [point(x, top - 0.5), point(x + width, top - 0.5)])],
});

/** Figures of 4 mm are read off a wall; a narrow or a long table has smaller ones. */
export const FIGURE_SIZES_MM = [6.1, 5, 3.9] as const;
const FORM_ROW_MM = 6;
/** A row's height over its type size. */
const FORM_ROW_WHITE_MM = 1.6;
const BOX_WIDTH_MM = { min: 11.5, max: 24 } as const;
const FORM_GAP_MM = 4;
const MIN_NOTE_WIDTH_MM = 14;
/** A text exactly as wide as its column fits it in spite of rounding. */
const ROUNDING_MM = 1e-6;

/** A column of figures, of notes about them, or of boxes to write in; `true` draws a box, `false` and '' nothing. */
export interface FormColumn {
  readonly kind: 'figures' | 'notes' | 'boxes';
  readonly head: string;
  readonly cells: readonly (string | boolean)[];
}

/** Boxes share the width (mm) that text leaves; if too little, figures are set smaller, then columns left out. */
export function formTable(
  columns: readonly FormColumn[],
  width: number,
  overrun = 0,
  most: number = FIGURE_SIZES_MM[0],
): TextRow[] {
  for (const size of [...FIGURE_SIZES_MM.filter((one) => one <= most), BODY_MM]) {
    const sized = sizeColumns(columns, width, overrun, size);
    if (sized) return formRows(sized);
  }
  return columns.length > 1
    ? formTable(columns.slice(0, -1), width, overrun, most)
    : formRows(columns.map((column) => ({ ...column, size: BODY_MM, width })));
}

interface SizedColumn extends FormColumn {
  readonly size: number;
  readonly width: number;
}

function sizeColumns(columns: readonly FormColumn[], width: number, overrun: number, figureSize: number) {
  const natural = columns.map((column): SizedColumn => {
    const size = column.kind === 'figures' ? figureSize : BODY_MM;
    const texts = column.cells.filter((cell) => typeof cell === 'string');
    return { ...column, size, width: Math.max(textWidth(column.head, BODY_MM), widestText(texts, size)) };
  });
  const total = (kind: FormColumn['kind']): number =>
    natural.reduce((sum, column) => sum + (column.kind === kind ? column.width : 0), 0);
  const boxes = columns.filter(({ kind }) => kind === 'boxes').length;
  const notes = total('notes');
  const inside = width - FORM_GAP_MM * (columns.length - 1) - total('figures');
  const missing = notes + boxes * BOX_WIDTH_MM.min - inside;
  const left = inside + (notes > 0 ? Math.min(overrun, Math.max(0, missing)) : 0);
  const note = Math.min(notes, left - boxes * BOX_WIDTH_MM.min);
  // Smaller figures come before notes that are cut short.
  if (note < (figureSize > BODY_MM ? notes : Math.min(notes, MIN_NOTE_WIDTH_MM))) return undefined;
  const box = Math.min(BOX_WIDTH_MM.max, (left - note) / Math.max(1, boxes));
  const widths = { boxes: box, notes: note };
  return natural.map((column) =>
    column.kind === 'figures' ? column : { ...column, width: widths[column.kind] },
  );
}

function formRows(columns: readonly SizedColumn[]): TextRow[] {
  const { placed } = placeColumns(columns, FORM_GAP_MM);
  const cell = (column: (typeof placed)[number], size: number, value?: string | boolean): TableCell => {
    const text = typeof value === 'string' ? truncateToWidth(value, size, column.width + ROUNDING_MM) : '';
    return { ...column, size, content: value === true ? 'box' : text === '' ? [] : [text] };
  };
  const heads = placed.map((column) => cell(column, BODY_MM, column.head));
  const count = Math.max(...columns.map(({ cells }) => cells.length));
  const figures = Math.max(...columns.map(({ size }) => size));
  const height = Math.max(FORM_ROW_MM, figures + FORM_ROW_WHITE_MM);
  const rows = Array.from({ length: count }, (_, r) => {
    const cells = placed.map((column) => cell(column, column.size, column.cells[r]));
    return tableRow(cells, height, (height + figures * CAP_HEIGHT) / 2);
  });
  return [
    ...(heads.some(({ content }) => content.length > 0)
      ? [{ ...tableRow(heads, BODY_MM * LINE_SPACING + 0.8, BODY_MM), withNext: true }]
      : []),
    ...rows,
  ];
}
