import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { cornersOnFace, edgeStart } from '../../part/edge.ts';
import { cutEnds } from '../../part/ends/cut-ends.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { landmarkName, landmarkNote, type OffsetRow, offsetRowsOf } from '../cover/offset-rows.ts';
import { blankRow, paragraph } from '../cover/text-columns.ts';
import { dimensionsOf, lengthWithoutUnit, printedLength } from '../drawing/dimensions.ts';
import { type FormColumn, formTable } from '../tables/paper-table.ts';
import type { CardSection, SectionVariant } from './fit-sections.ts';

/** How many stations to try for, besides the landmarks; fewer where the page is full. */
const STATION_COUNTS = [12, 8, 6, 4] as const;

/** So many rows will do while there are measures without a box. */
const SUFFICIENT_ROWS = 12;

/** The kinds of landmark that keep their row, one list after the other, as the page fills. */
const KEPT_LANDMARKS = [
  ['apex', 'nail', 'pin', 'join', 'shoulder'],
  ['apex', 'join', 'shoulder'],
  ['apex', 'shoulder'],
  [],
] as const satisfies readonly (readonly string[])[];

/** So many rows at most ever fill a column of the largest paper. */
const MAX_ROWS = 30;

/** Notes may run so far into the gutter beside the figures: what stands in the next column keeps 3 mm of white. */
const NOTES_OVERRUN_MM = 5;

const MORE_OFFSETS_NOTE = 'More: the cover of the pattern, fairlath offsets.';

/** The offsets at the main stations, with a box to write in what came out. */
export function offsetsSection(part: Part, width: number): CardSection {
  const bent = edgesWithOffsets(part);
  const level = part.edges.filter(isLevel).map((edge) => levelSentence(part, edge));
  const tables = bent.length === 0 ? [[]] : candidateTables(part, bent);
  const enough = tables.findIndex(({ length }) => length <= SUFFICIENT_ROWS);
  const [first, ...more] = tables.map((rows, i): SectionVariant => {
    const thinned = i > 0 || rows.length < tables[0]!.length;
    return {
      rows: [
        ...(rows.length > 0
          ? [...formTable(offsetColumns(part, bent, rows), width, NOTES_OVERRUN_MM), blankRow(1.4)]
          : []),
        ...[...level, ...(thinned ? [MORE_OFFSETS_NOTE] : [])].flatMap((words) => paragraph(words, width)),
      ],
      list: rows.map(({ station, side, offsets, marks }) => ({
        station,
        ...(side && { side }),
        shown: lengthWithoutUnit(station, part.rule),
        edges: part.edges.flatMap(({ name }, e) => {
          const offset = offsets[e];
          return offset === undefined ? [] : [{ name, offset, shown: lengthWithoutUnit(offset, part.rule) }];
        }),
        marks: marks.map(landmarkNote(part, side)),
      })),
    };
  });
  return {
    name: 'offsets',
    title: 'Offsets, square off the reference line',
    priority: 1,
    variants: [first!, ...more],
    sufficientVariant: Math.max(0, enough),
  };
}

/** The table from the fullest to a bare few rows. */
function candidateTables(part: Part, bent: readonly PartEdge[]): OffsetRow[][] {
  const hasBox = ({ offsets }: OffsetRow): boolean =>
    bent.some((edge) => offsets[part.edges.indexOf(edge)] !== undefined);
  const settings = [
    ...STATION_COUNTS.map((most) => ({ most, kept: KEPT_LANDMARKS[0] as readonly string[] })),
    { most: 2, kept: KEPT_LANDMARKS[0] as readonly string[] },
    ...KEPT_LANDMARKS.slice(1).map((kept) => ({ most: 4, kept: kept as readonly string[] })),
    { most: 2, kept: KEPT_LANDMARKS[3] as readonly string[] },
  ];
  const tables = settings.map(({ most, kept }) => {
    const setting = dimensionsOf(part, most);
    const landmarks = setting.landmarks.filter(({ what }) => kept.includes(what));
    return offsetRowsOf(part, { ...setting, landmarks }, bent).filter(hasBox);
  });
  const fitting = tables.filter(({ length }) => length <= MAX_ROWS);
  return fitting.length > 0 ? fitting : [tables.at(-1)!.slice(0, MAX_ROWS)];
}

function offsetColumns(part: Part, edges: readonly PartEdge[], rows: readonly OffsetRow[]): FormColumn[] {
  const figures = edges.flatMap((edge): FormColumn[] => {
    const e = part.edges.indexOf(edge);
    const offsets = rows.map((row) => row.offsets[e]);
    return [
      {
        kind: 'figures',
        head: edge.name,
        cells: offsets.map((offset) => (offset === undefined ? '' : lengthWithoutUnit(offset, part.rule))),
      },
      { kind: 'boxes', head: 'made', cells: offsets.map((offset) => offset !== undefined) },
    ];
  });
  return [
    {
      kind: 'figures',
      head: `at, ${part.rule.unit}`,
      cells: rows.map(({ station }) => lengthWithoutUnit(station, part.rule)),
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

/** The edges that need a column of offsets. */
export const edgesWithOffsets = ({ edges }: Part): readonly PartEdge[] =>
  edges.filter((edge) => !isLevel(edge));

/** Whether an edge is one straight line parallel to the reference line: a sentence says it all. */
const isLevel = ({ runs }: PartEdge): boolean =>
  runs.every(({ kind, from, to }) => kind === 'line' && Math.abs(from.y - to.y) < JOIN_MM);

function levelSentence(part: Part, edge: PartEdge): string {
  const { rule } = part;
  const { y } = edgeStart(edge);
  const [from, to] = cornersOnFace(part, edge).map(({ x }) => lengthWithoutUnit(x, rule));
  const stretch = cutEnds(part, edge).length > 0 ? `, from ${from} to ${to}` : '';
  return Math.abs(y) < JOIN_MM
    ? `${edge.name}: straight, on the reference line${stretch}.`
    : `${edge.name}: straight, ${printedLength(y, rule)} off the reference line${stretch}.`;
}
