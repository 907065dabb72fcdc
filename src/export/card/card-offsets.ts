import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { cornersOnFace, edgeStart } from '../../part/edge.ts';
import { cutEnds } from '../../part/ends/cut-ends.ts';
import type { Landmark, Part, PartEdge } from '../../part/part.ts';
import { lastOf } from '../../units/checked.ts';
import { landmarkName, landmarkNote, type OffsetRow, offsetRowsOf } from '../cover/offset-rows.ts';
import { blankRow, paragraphs } from '../cover/text-columns.ts';
import { dimensionsOf, lengthWithoutUnit, printedLength } from '../drawing/dimensions.ts';
import { FIGURE_SIZES_MM, type FormColumn, formTable } from '../tables/paper-table.ts';
import type { CardSection, SectionVariant } from './fit-sections.ts';

/** The kinds of landmark that keep their row, as the page fills. */
const KEPT_LANDMARKS: readonly (readonly Landmark['what'][])[] = [
  ['apex', 'most rise', 'nail', 'point', 'join', 'shoulder'],
  ['apex', 'most rise', 'join', 'shoulder'],
  ['apex', 'most rise', 'shoulder'],
  [],
];

const TABLES = [
  ...[12, 8, 6, 4, 2].map((stations) => ({ stations, kept: KEPT_LANDMARKS[0] })),
  ...KEPT_LANDMARKS.slice(1).map((kept) => ({ stations: 4, kept })),
  { stations: 2, kept: [] },
];

/** So many rows will do while there are measures without a box. */
const SUFFICIENT_ROWS = 12;
const MAX_ROWS = 30;
/** Notes may run so far into the gutter, which leaves 3 mm of white before the next column. */
const NOTES_OVERRUN_MM = 5;
const MORE_OFFSETS_NOTE = 'For more offsets, see the cover of the pattern.';

/** The offsets at the main stations, with a box for each measured one; width in mm. */
export function offsetsSection(part: Part, width: number): CardSection {
  const show = (mm: number): string => lengthWithoutUnit(mm, part.rule);
  const bent = edgesWithOffsets(part);
  const level = part.edges.filter(isLevel).map((edge) => levelSentence(part, edge));
  const tables = bent.length === 0 ? [[]] : candidateTables(part, bent);
  const sizes = bent.length === 0 ? [FIGURE_SIZES_MM[0]] : FIGURE_SIZES_MM;
  const variants = tables
    .flatMap((rows) => sizes.map((size) => ({ rows, size })))
    .map(({ rows, size }): SectionVariant => {
      const sentences = [...level, ...(rows === tables[0] ? [] : [MORE_OFFSETS_NOTE])];
      const columns = offsetColumns(part, bent, rows);
      const table =
        rows.length > 0 ? [...formTable(columns, width, NOTES_OVERRUN_MM, size), blankRow(1.4)] : [];
      return {
        rows: [...table, ...paragraphs(sentences, width)],
        list: rows.map(({ station, side, offsets, marks }) => ({
          station,
          ...(side && { side }),
          shown: show(station),
          edges: part.edges.flatMap(({ name }, e) => {
            const offset = offsets[e];
            return offset === undefined ? [] : [{ name, offset, shown: show(offset) }];
          }),
          marks: marks.map(landmarkNote(part, side)),
        })),
      };
    });
  const title = 'Offsets, square from the reference line';
  const sufficient = tables.findIndex(({ length }) => length <= SUFFICIENT_ROWS) * sizes.length;
  return { name: 'offsets', title, priority: 1, variants, sufficientVariant: Math.max(0, sufficient) };
}

function candidateTables(part: Part, bent: readonly PartEdge[]): OffsetRow[][] {
  const hasBox = ({ offsets }: OffsetRow): boolean =>
    bent.some((edge) => offsets[part.edges.indexOf(edge)] !== undefined);
  const tables = TABLES.map(({ stations, kept = [] }) => {
    const setting = dimensionsOf(part, stations);
    const landmarks = setting.landmarks.filter(({ what }) => kept.includes(what));
    return offsetRowsOf(part, { ...setting, landmarks }, bent).filter(hasBox);
  });
  const fitting = tables.filter(({ length }) => length <= MAX_ROWS);
  return fitting.length > 0 ? fitting : [lastOf(tables).slice(0, MAX_ROWS)];
}

function offsetColumns(part: Part, edges: readonly PartEdge[], rows: readonly OffsetRow[]): FormColumn[] {
  const show = (mm: number | undefined): string => (mm === undefined ? '' : lengthWithoutUnit(mm, part.rule));
  const figures = edges.flatMap((edge): FormColumn[] => {
    const e = part.edges.indexOf(edge);
    const offsets = rows.map((row) => row.offsets[e]);
    return [
      { kind: 'figures', head: edge.name, cells: offsets.map(show) },
      { kind: 'boxes', head: 'reading', cells: offsets.map((offset) => offset !== undefined) },
    ];
  });
  return [
    {
      kind: 'figures',
      head: 'station',
      cells: rows.map(({ station }) => show(station)),
    },
    ...figures,
    { kind: 'notes', head: '', cells: rows.map((row) => rowNotes(row, edges.length)) },
  ];
}

/** "apex", "nail of back": the edge is named where another in the table has none there. */
function rowNotes({ marks, side }: OffsetRow, edges: number): string {
  const whats = [...new Set(marks.map(({ what }) => what))];
  return whats
    .flatMap((what) => {
      const alike = marks.filter((mark) => mark.what === what);
      const name = landmarkName(what, side);
      return alike.length === edges ? [name] : alike.map(({ edge }) => `${name} of ${edge}`);
    })
    .join(', ');
}

export const edgesWithOffsets = ({ edges }: Part): readonly PartEdge[] =>
  edges.filter((edge) => !isLevel(edge));

const isLevel = ({ runs }: PartEdge): boolean =>
  runs.every(({ kind, from, to }) => kind === 'line' && Math.abs(from.y - to.y) < JOIN_MM);

function levelSentence(part: Part, edge: PartEdge): string {
  const { rule } = part;
  const { y } = edgeStart(edge);
  const [from, to] = cornersOnFace(part, edge).map(({ x }) => lengthWithoutUnit(x, rule));
  const stretch = cutEnds(part, edge).length > 0 ? `, from ${from} to ${to}` : '';
  return Math.abs(y) < JOIN_MM
    ? `${edge.name}: straight, on the reference line${stretch}.`
    : `${edge.name}: straight, ${printedLength(y, rule)} from the reference line${stretch}.`;
}
