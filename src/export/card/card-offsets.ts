import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { edgeStart } from '../../part/edge.ts';
import { cornersOnFace } from '../../part/edge-corners.ts';
import { cutEnds } from '../../part/ends/cut-ends.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { markName, noteOf, type PrintedRow, printedOffsets } from '../cover/offset-rows.ts';
import { gap, paragraph } from '../cover/text-columns.ts';
import { bare, printed, settingOut } from '../drawing/dimensions.ts';
import { boxTable, type Column } from './card-rows.ts';
import type { Filling, Section } from './fit-sections.ts';

/** How many stations to try for, besides the landmarks; fewer where the page is full. */
const STATIONS = [12, 8, 6, 4] as const;

/** So many rows will do while there are measures without a box. */
const ENOUGH_ROWS = 12;

/** The kinds of landmark that keep their row, one list after the other, as the page fills. */
const KEPT = [
  ['apex', 'nail', 'pin', 'join', 'shoulder'],
  ['apex', 'join', 'shoulder'],
  ['apex', 'shoulder'],
  [],
] as const satisfies readonly (readonly string[])[];

/** So many rows at most ever fill a column of the largest paper. */
const MOST_ROWS = 30;

/** Notes may run so far into the gutter beside the figures: what stands in the next column keeps 3 mm of white. */
const NOTES_PAST_MM = 5;

const MORE_OFFSETS = 'More: the cover of the pattern, fairlath offsets.';

/** The offsets at the main stations, with a box to write in what came out. */
export function offsetsSection(part: Part, width: number): Section {
  const bent = bentEdges(part);
  const level = part.edges.filter(isLevel).map((edge) => levelWords(part, edge));
  const tables = bent.length === 0 ? [[]] : tablesOf(part, bent);
  const enough = tables.findIndex(({ length }) => length <= ENOUGH_ROWS);
  const [first, ...more] = tables.map((rows, i): Filling => {
    const thinned = i > 0 || rows.length < tables[0]!.length;
    return {
      rows: [
        ...(rows.length > 0
          ? [...boxTable(columnsOf(part, bent, rows), width, NOTES_PAST_MM), gap(1.4)]
          : []),
        ...[...level, ...(thinned ? [MORE_OFFSETS] : [])].flatMap((words) => paragraph(words, width)),
      ],
      list: rows.map(({ station, side, offsets, marks }) => ({
        station,
        ...(side && { side }),
        shown: bare(station, part.rule),
        edges: part.edges.flatMap(({ name }, e) => {
          const offset = offsets[e];
          return offset === undefined ? [] : [{ name, offset, shown: bare(offset, part.rule) }];
        }),
        marks: marks.map(noteOf(part, side)),
      })),
    };
  });
  return {
    name: 'offsets',
    title: 'Offsets, square off the reference line',
    rank: 1,
    fillings: [first!, ...more],
    enough: Math.max(0, enough),
  };
}

/** The table from the fullest to a bare few rows. */
function tablesOf(part: Part, bent: readonly PartEdge[]): PrintedRow[][] {
  const hasBox = ({ offsets }: PrintedRow): boolean =>
    bent.some((edge) => offsets[part.edges.indexOf(edge)] !== undefined);
  const settings = [
    ...STATIONS.map((most) => ({ most, kept: KEPT[0] as readonly string[] })),
    { most: 2, kept: KEPT[0] as readonly string[] },
    ...KEPT.slice(1).map((kept) => ({ most: 4, kept: kept as readonly string[] })),
    { most: 2, kept: KEPT[3] as readonly string[] },
  ];
  const tables = settings.map(({ most, kept }) => {
    const setting = settingOut(part, most);
    const landmarks = setting.landmarks.filter(({ what }) => kept.includes(what));
    return printedOffsets(part, { ...setting, landmarks }, bent).filter(hasBox);
  });
  const fitting = tables.filter(({ length }) => length <= MOST_ROWS);
  return fitting.length > 0 ? fitting : [tables.at(-1)!.slice(0, MOST_ROWS)];
}

function columnsOf(part: Part, edges: readonly PartEdge[], rows: readonly PrintedRow[]): Column[] {
  const figures = edges.flatMap((edge): Column[] => {
    const e = part.edges.indexOf(edge);
    const offsets = rows.map((row) => row.offsets[e]);
    return [
      {
        head: edge.name,
        cells: offsets.map((offset) => (offset === undefined ? '' : bare(offset, part.rule))),
      },
      { head: 'made', boxes: offsets.map((offset) => offset !== undefined) },
    ];
  });
  return [
    { head: `at, ${part.rule.unit}`, cells: rows.map(({ station }) => bare(station, part.rule)) },
    ...figures,
    { head: '', notes: rows.map((row) => notesOf(row, edges.length)) },
  ];
}

/** "apex", "nail of back": the edge is named where another in the table has none there. */
function notesOf({ marks, side }: PrintedRow, edges: number): string {
  const whats = [...new Set(marks.map(({ what }) => what))];
  return whats
    .flatMap((what) => {
      const alike = marks.filter((mark) => mark.what === what);
      const name = markName(what, side);
      return alike.length === edges ? [name] : alike.map(({ edge }) => `${name} of ${edge}`);
    })
    .join(', ');
}

/** The edges that need a column of offsets. */
export const bentEdges = ({ edges }: Part): readonly PartEdge[] => edges.filter((edge) => !isLevel(edge));

/** Whether an edge is one straight line parallel to the reference line: a sentence says it all. */
const isLevel = ({ runs }: PartEdge): boolean =>
  runs.every(({ kind, from, to }) => kind === 'line' && Math.abs(from.y - to.y) < JOIN_MM);

function levelWords(part: Part, edge: PartEdge): string {
  const { rule } = part;
  const { y } = edgeStart(edge);
  const [from, to] = cornersOnFace(part, edge).map(({ x }) => bare(x, rule));
  const stretch = cutEnds(part, edge).length > 0 ? `, from ${from} to ${to}` : '';
  return Math.abs(y) < JOIN_MM
    ? `${edge.name}: straight, on the reference line${stretch}.`
    : `${edge.name}: straight, ${printed(y, rule)} off the reference line${stretch}.`;
}
