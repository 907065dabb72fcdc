import { distance } from '../../curves/geometry/point.ts';
import { figuresOf } from '../../curves/measurements.ts';
import { cornersOnFace } from '../../part/edge.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { edgeCheckDistances } from '../../tiling/check-crosses.ts';
import {
  dimensionsOf,
  lengthWithoutUnit,
  printedLength,
  stationSides,
  unitWord,
} from '../drawing/dimensions.ts';
import { type FormColumn, formTable } from '../tables/paper-table.ts';
import { type CardSection, shrinkingVariants } from './fit-sections.ts';

interface PartMeasure {
  readonly label: string;
  readonly length: number;
}

const listMeasures = (part: Part): PartMeasure[] => [
  ...edgeCheckDistances(part).map(({ label, length }) => ({ label, length })),
  ...part.edges.flatMap((edge) => riseMeasures(part, edge)),
  ...diagonalMeasures(part),
  ...widthMeasures(part),
  ...(part.stock?.thickness === undefined ? [] : [{ label: 'thickness', length: part.stock.thickness }]),
];

const riseMeasures = ({ rule }: Part, { name, runs }: PartEdge): PartMeasure[] =>
  runs.flatMap((run) => {
    const { apex } = figuresOf(run);
    if (!apex) return [];
    return [{ label: `${name}, rise at ${printedLength(apex.at.x, rule)}`, length: Math.abs(apex.rise) }];
  });

function diagonalMeasures(part: Part): PartMeasure[] {
  const [one, other] = part.edges;
  if (part.shape.type !== 'closed' || !one || !other) return [];
  const [oneLeft, oneRight] = cornersOnFace(part, one);
  const [otherLeft, otherRight] = cornersOnFace(part, other);
  return [
    { label: `${one.name} left to ${other.name} right`, length: distance(oneLeft, otherRight) },
    { label: `${other.name} left to ${one.name} right`, length: distance(otherLeft, oneRight) },
  ];
}

const WIDTH_STATIONS = 4;

/** The least, then square to the reference line at a few stations; not at a shoulder, which has two widths. */
function widthMeasures(part: Part): PartMeasure[] {
  const { shape, rule } = part;
  const across = dimensionsOf(part, WIDTH_STATIONS)
    .stations.slice(1, -1)
    .flatMap(({ station, offsets: [a, b] }) =>
      a === undefined || b === undefined || stationSides(part, station).length > 1
        ? []
        : [{ label: `width at ${printedLength(station, rule)}`, length: Math.abs(b - a) }],
    );
  if (shape.type !== 'closed') return across;
  const { at, width } = shape.leastWidth;
  return [{ label: `least width, at ${printedLength(at.x, rule)}`, length: width }, ...across];
}

/** So many measures will do while there are stations without a row. */
const SUFFICIENT_MEASURES = 7;
const MIN_MEASURES = 3;

/** With boxes to write in, from all measures to the first few; width in mm. */
export function measuresSection(part: Part, width: number): CardSection {
  const { rule } = part;
  const all = listMeasures(part).map((each) => ({ ...each, shown: lengthWithoutUnit(each.length, rule) }));
  const variants = shrinkingVariants(all.length, Math.min(all.length, MIN_MEASURES), (count) => {
    const list = all.slice(0, count);
    const columns: FormColumn[] = [
      { kind: 'figures', head: unitWord(rule), cells: list.map(({ shown }) => shown) },
      { kind: 'boxes', head: 'reading', cells: list.map(() => true) },
      { kind: 'notes', head: '', cells: list.map(({ label }) => label) },
    ];
    return { rows: formTable(columns, width), list };
  });
  const sufficientVariant = Math.max(0, all.length - SUFFICIENT_MEASURES);
  return { name: 'measures', title: 'Measure the part', priority: 2, variants, sufficientVariant };
}
