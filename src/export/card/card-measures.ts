import { distance } from '../../curves/geometry/point.ts';
import { figuresOf } from '../../curves/measurements.ts';
import { cornersOnFace } from '../../part/edge.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { edgeCheckDistances } from '../../tiling/check-crosses.ts';
import { dimensionsOf, lengthWithoutUnit, printedLength, stationSides } from '../drawing/dimensions.ts';
import { formTable } from '../tables/paper-table.ts';
import type { CardSection, SectionVariant } from './fit-sections.ts';

/** Something to measure on the finished part, mm. */
interface PartMeasure {
  readonly label: string;
  readonly length: number;
}

/** The measures by their worth: what tells most comes first and goes last. */
function listMeasures(part: Part): PartMeasure[] {
  return [
    ...edgeCheckDistances(part).map(({ label, length }) => ({ label, length })),
    ...part.edges.flatMap((edge) => riseMeasures(part, edge)),
    ...diagonalMeasures(part),
    ...leastWidthMeasure(part),
    ...widthMeasures(part),
    ...thicknessMeasure(part),
  ];
}

/** How far each curved run stands off the straight between its ends. */
const riseMeasures = ({ rule }: Part, { name, runs }: PartEdge): PartMeasure[] =>
  runs.flatMap((run) => {
    const { apex } = figuresOf(run);
    if (!apex) return [];
    return [{ label: `${name}, rise at ${printedLength(apex.at.x, rule)}`, length: Math.abs(apex.rise) }];
  });

function diagonalMeasures(part: Part): PartMeasure[] {
  const [one, other] = part.edges;
  if (part.shape.type !== 'closed' || !one || !other) return [];
  const [[oneLeft, oneRight], [otherLeft, otherRight]] = [
    cornersOnFace(part, one),
    cornersOnFace(part, other),
  ];
  return [
    { label: `${one.name} left to ${other.name} right`, length: distance(oneLeft, otherRight) },
    { label: `${other.name} left to ${one.name} right`, length: distance(otherLeft, oneRight) },
  ];
}

const leastWidthMeasure = ({ shape, rule }: Part): PartMeasure[] =>
  shape.type === 'closed'
    ? [
        {
          label: `least width, at ${printedLength(shape.leastWidth.at.x, rule)}`,
          length: shape.leastWidth.width,
        },
      ]
    : [];

/** Stations between the ends at which the width is measured. */
const WIDTH_STATIONS = 4;

/** Square to the reference line from edge to edge, at a few stations; a shoulder's has two widths, and none is told. */
const widthMeasures = (part: Part): PartMeasure[] =>
  dimensionsOf(part, WIDTH_STATIONS).stations.flatMap(({ station, offsets: [a, b] }, i, all) =>
    i === 0 ||
    i === all.length - 1 ||
    a === undefined ||
    b === undefined ||
    stationSides(part, station).length > 1
      ? []
      : [{ label: `width at ${printedLength(station, part.rule)}`, length: Math.abs(b - a) }],
  );

const thicknessMeasure = ({ stock }: Part): PartMeasure[] =>
  stock?.thickness === undefined ? [] : [{ label: 'thickness', length: stock.thickness }];

/** So many measures will do while there are stations without a row. */
const SUFFICIENT_MEASURES = 7;

/** The measures with their boxes, from all of them to the first few. */
export function measuresSection(part: Part, width: number): CardSection {
  const all = listMeasures(part);
  const few = Math.min(all.length, 3);
  const filling = (count: number): SectionVariant => {
    const measures = all.slice(0, count);
    return {
      rows: formTable(
        [
          {
            kind: 'figures',
            head: part.rule.unit,
            cells: measures.map(({ length }) => lengthWithoutUnit(length, part.rule)),
          },
          { kind: 'boxes', head: 'made', cells: measures.map(() => true) },
          { kind: 'notes', head: '', cells: measures.map(({ label }) => label) },
        ],
        width,
      ),
      list: measures.map((measure) => ({ ...measure, shown: lengthWithoutUnit(measure.length, part.rule) })),
    };
  };
  const [first, ...more] = Array.from({ length: all.length - few + 1 }, (_, i) => filling(all.length - i));
  return {
    name: 'measures',
    title: 'Measure the part',
    priority: 2,
    variants: [first!, ...more],
    sufficientVariant: Math.max(0, all.length - SUFFICIENT_MEASURES),
  };
}
