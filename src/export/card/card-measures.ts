import { distance } from '../../curves/geometry/point.ts';
import { figuresOf } from '../../curves/measurements.ts';
import { cornersOnFace } from '../../part/edge-corners.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { edgeChecks } from '../../tiling/check-crosses.ts';
import { bare, printed, settingOut, sidesAt } from '../drawing/dimensions.ts';
import { boxTable } from './card-rows.ts';
import type { Filling, Section } from './fit-sections.ts';

/** Something to measure on the finished part, mm. */
interface Measure {
  readonly label: string;
  readonly length: number;
}

/** The measures by their worth: what tells most comes first and goes last. */
function measuresOf(part: Part): Measure[] {
  return [
    ...edgeChecks(part).map(({ label, length }) => ({ label, length })),
    ...part.edges.flatMap((edge) => riseOf(part, edge)),
    ...diagonalsOf(part),
    ...leastWidth(part),
    ...widthsOf(part),
    ...thicknessOf(part),
  ];
}

/** How far each curved run stands off the straight between its ends. */
const riseOf = ({ rule }: Part, { name, runs }: PartEdge): Measure[] =>
  runs.flatMap((run) => {
    const { apex } = figuresOf(run);
    if (!apex) return [];
    return [{ label: `${name}, rise at ${printed(apex.at.x, rule)}`, length: Math.abs(apex.rise) }];
  });

function diagonalsOf(part: Part): Measure[] {
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

const leastWidth = ({ shape, rule }: Part): Measure[] =>
  shape.type === 'closed'
    ? [
        {
          label: `least width, at ${printed(shape.leastWidth.at.x, rule)}`,
          length: shape.leastWidth.width,
        },
      ]
    : [];

/** Stations between the ends at which the width is measured. */
const WIDTHS_BETWEEN = 4;

/** Square to the reference line from edge to edge, at a few stations; a shoulder's has two widths, and none is told. */
const widthsOf = (part: Part): Measure[] =>
  settingOut(part, WIDTHS_BETWEEN).stations.flatMap(({ station, offsets: [a, b] }, i, all) =>
    i === 0 || i === all.length - 1 || a === undefined || b === undefined || sidesAt(part, station).length > 1
      ? []
      : [{ label: `width at ${printed(station, part.rule)}`, length: Math.abs(b - a) }],
  );

const thicknessOf = ({ stock }: Part): Measure[] =>
  stock?.thickness === undefined ? [] : [{ label: 'thickness', length: stock.thickness }];

/** So many measures will do while there are stations without a row. */
const ENOUGH = 7;

/** The measures with their boxes, from all of them to the first few. */
export function measuresSection(part: Part, width: number): Section {
  const all = measuresOf(part);
  const few = Math.min(all.length, 3);
  const filling = (count: number): Filling => {
    const measures = all.slice(0, count);
    return {
      rows: boxTable(
        [
          { head: part.rule.unit, cells: measures.map(({ length }) => bare(length, part.rule)) },
          { head: 'made', boxes: measures.map(() => true) },
          { head: '', notes: measures.map(({ label }) => label) },
        ],
        width,
      ),
      list: measures.map((measure) => ({ ...measure, shown: bare(measure.length, part.rule) })),
    };
  };
  const [first, ...more] = Array.from({ length: all.length - few + 1 }, (_, i) => filling(all.length - i));
  return {
    name: 'measures',
    title: 'Measure the part',
    rank: 2,
    fillings: [first!, ...more],
    enough: Math.max(0, all.length - ENOUGH),
  };
}
