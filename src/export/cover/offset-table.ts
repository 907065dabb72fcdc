import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { Part } from '../../part/part.ts';
import { type Dimensions, lengthWithoutUnit, unitWord } from '../drawing/dimensions.ts';
import { words } from '../drawing/drawing.ts';
import { LINE_SPACING, textWidth, truncateToWidth, wrapText } from '../drawing/text-width.ts';
import { landmarkNote, offsetRowsOf } from './offset-rows.ts';
import { BASELINE_SHARE, BODY_MM, keepTogether, paragraphs, type TextRow } from './text-columns.ts';

/** Read from the bench, mm; smaller where a row would not fit, or would make the table too long. */
const FIGURE_SIZES_MM = [4.3, 3.8, BODY_MM] as const;
/** A table of more rows keeps to body type. */
const MOST_LARGE_ROWS = 16;
const GAP_MM = 4;
const HEAD_NAME_MM = 22;
const MIN_NOTE_MM = 12;

/** Without the column of an edge that is all on the reference line; width in mm. */
export function offsetTable(part: Part, setting: Dimensions, width: number): TextRow[] {
  const { edges, rule } = part;
  const rows = offsetRowsOf(part, setting);
  const bent = edges.map((_, e) => rows.some(({ offsets }) => Math.abs(offsets[e] ?? 0) > JOIN_MM));
  const columns = edges.flatMap((edge, e) => (bent[e] || edges.length === 1 ? [{ edge, e }] : []));
  const level = edges.filter((edge) => !columns.some((column) => column.edge === edge));
  const show = (mm: number | undefined): string => (mm === undefined ? '' : lengthWithoutUnit(mm, rule));
  const body = rows
    .map(({ station, side, offsets, marks }) => ({
      figures: [show(station), ...columns.map(({ e }) => show(offsets[e]))],
      note: marks.map(landmarkNote(part, side)).join(', '),
    }))
    .filter(({ figures }) => figures.slice(1).some((text) => text !== ''));
  const heads = [
    `station, ${unitWord(rule)}`,
    ...columns.map(({ edge }) => truncateToWidth(edge.name, BODY_MM, HEAD_NAME_MM)),
  ];
  const placesAt = (size: number): number[] => {
    const places = [0];
    for (const [c, head] of heads.entries()) {
      const figures = body.map((row) => textWidth(row.figures[c] ?? '', size));
      places.push((places[c] ?? 0) + Math.max(textWidth(head, BODY_MM), ...figures) + GAP_MM);
    }
    return places;
  };
  const noteAt = (size: number): number => placesAt(size)[heads.length] ?? 0;
  const sizes = body.length > MOST_LARGE_ROWS ? [BODY_MM] : FIGURE_SIZES_MM;
  const size = sizes.find((one) => noteAt(one) + MIN_NOTE_MM <= width) ?? BODY_MM;
  const places = placesAt(size);
  const note = noteAt(size);
  const drawn = body.map((row): TextRow => {
    const lines = wrapText(row.note, BODY_MM, Math.max(MIN_NOTE_MM, width - note));
    const height = Math.max(size * LINE_SPACING, lines.length * BODY_MM * LINE_SPACING);
    return {
      height,
      draw: (x, top) => {
        const y = top - size * BASELINE_SHARE;
        const figures = row.figures.flatMap((text, c) =>
          text === '' ? [] : [words(text, { x: x + (places[c] ?? 0), y }, size)],
        );
        const notes = lines.map((text, i) =>
          words(text, { x: x + note, y: y - i * BODY_MM * LINE_SPACING }, BODY_MM),
        );
        return [...figures, ...notes];
      },
    };
  });
  const head: TextRow = {
    height: BODY_MM * LINE_SPACING + 0.8,
    draw: (x, top) =>
      heads.map((text, c) =>
        words(text, { x: x + (places[c] ?? 0), y: top - BODY_MM * BASELINE_SHARE }, BODY_MM),
      ),
  };
  const straight = level.map(({ name }) => `${name} is straight, on the reference line.`);
  return [...keepTogether([head, ...drawn]), ...paragraphs(straight, width)];
}
