import { fairnessOf } from '../curves/fairness.ts';
import type { Piece, Segment } from '../curves/piece.ts';
import { add, direction, leftOf, type Point, scale } from '../curves/point.ts';
import { mapSegment } from '../curves/segment.ts';
import { finishedLine } from '../part/make-part.ts';
import { stationSpacing, stationsEvery } from '../part/offsets.ts';
import type { Landmark, Part, PartEdge } from '../part/part.ts';
import { showLength } from '../units/rule.ts';
import { circle, type Drawing, type Item, polyline, words } from './drawing.ts';
import { bare, printed, settingOut } from './setting-out.ts';
import { LEADING, textWidth, wrapText } from './type.ts';

/** A picture for a screen or a note, mm: as wide as a lying letter or A4 sheet leaves room for. */
const WIDTH_MM = 260;
const SIDE_MM = 14;
const INNER_MM = WIDTH_MM - 2 * SIDE_MM;
/** A tall part is drawn smaller rather than let the picture grow higher than it is wide. */
const MOST_HEIGHT_MM = 170;
/** The longest tooth of the curvature comb. */
const TOOTH_MM = 22;
const TITLE_MM = 7;
const TEXT_MM = 3.6;
const LABEL_MM = 3;
const MOST_TICKS = 12;

/** From part to picture: one scale both ways, and a shift. */
interface View {
  readonly part: Part;
  readonly scale: number;
  readonly at: (p: Point) => Point;
  readonly path: (path: readonly Segment[]) => Segment[];
}

/**
 * The part to look at: its outline, the curvature along every edge as a comb of teeth square to the
 * line (the longer, the sharper; a fair line has an even comb), nails, apexes, stations, and in words
 * how fair each edge is.
 */
export function composePicture(part: Part): Drawing {
  const { bounds, rule } = part;
  const size = { width: bounds.right - bounds.left, height: bounds.top - bounds.bottom };
  const factor = Math.min(INNER_MM / size.width, MOST_HEIGHT_MM / Math.max(size.height, 1e-9));
  const remarks = part.edges.flatMap((edge) => remarkLines(part, edge));
  const ruleBottom = SIDE_MM + remarks.length * TEXT_MM * LEADING + 4;
  const bottom = ruleBottom + 3 * LABEL_MM + TOOTH_MM + 4;
  const top = bottom + size.height * factor + TOOTH_MM + 2 * LABEL_MM * LEADING + 6;
  const height = top + 2 * TITLE_MM + SIDE_MM;
  const shift = {
    x: SIDE_MM + (INNER_MM - size.width * factor) / 2 - bounds.left * factor,
    y: bottom - bounds.bottom * factor,
  };
  const view: View = {
    part,
    scale: factor,
    at: (p) => add(scale(p, factor), shift),
    path: (path) => path.map((segment) => mapSegment(segment, [factor, 0, 0, factor, shift.x, shift.y])),
  };
  const facts = `1 : ${Number((1 / factor).toPrecision(3))} · lengths to ${printed((rule.graduation.numerator / rule.graduation.denominator) * (rule.unit === 'in' ? 25.4 : 1), rule)}`;
  const items: Item[] = [
    words(part.name, { x: SIDE_MM, y: height - SIDE_MM - TITLE_MM * 0.7 }, TITLE_MM),
    words(facts, { x: SIDE_MM, y: height - SIDE_MM - TITLE_MM * 0.7 - TEXT_MM * LEADING * 1.2 }, TEXT_MM),
    ...combs(view),
    {
      type: 'stroke',
      style: 'cut',
      path: view.path(finishedLine(part.shape)),
      closed: part.shape.type === 'closed',
    },
    ...(part.saw.length > 0
      ? [
          {
            type: 'stroke',
            style: 'saw',
            path: view.path(part.saw),
            closed: part.shape.type === 'closed',
          } as const,
        ]
      : []),
    ...signs(view),
    ...stationRule(view, ruleBottom + 2 * LABEL_MM),
    ...remarks.map((line, i) =>
      words(line, { x: SIDE_MM, y: SIDE_MM + (remarks.length - 1 - i) * TEXT_MM * LEADING }, TEXT_MM),
    ),
  ];
  return { width: WIDTH_MM, height, items };
}

function remarkLines({ rule }: Part, { name, runs }: PartEdge): string[] {
  const said = fairnessOf(runs).remarks.map(({ message }) => message((mm) => showLength(mm, rule)));
  return wrapText(`${name}: ${said.join('; ')}`, TEXT_MM, INNER_MM);
}

/** A comb to each edge, all to one scale, standing on the round side of the line. */
function combs({ part, at }: View): Item[] {
  const teeth = part.edges.map(({ runs }) => fairnessOf(runs).comb);
  const sharpest = Math.max(...teeth.flat().map(({ curvature }) => Math.abs(curvature)));
  if (!(sharpest > 0)) return [];
  return teeth.flatMap((comb) => {
    const tips = comb.map((tooth) => {
      const out = scale(leftOf(direction(tooth.angle)), (-TOOTH_MM * tooth.curvature) / sharpest);
      return { foot: at(tooth), tip: add(at(tooth), out) };
    });
    const every = tips.filter((_, i) => i % TOOTH_STEP === 0);
    return [
      ...every.map(({ foot, tip }) => polyline('station', [foot, tip])),
      ...runsOf(
        comb.map(({ piece }) => piece),
        tips,
      ).map((line) => polyline('mark', line)),
    ];
  });
}

/** One tooth drawn of so many measured. */
const TOOTH_STEP = 2;

/** The tips piece by piece: between pieces the curvature may jump. */
function runsOf(pieces: readonly Piece[], tips: readonly { tip: Point }[]): Point[][] {
  const lines: Point[][] = [];
  pieces.forEach((piece, i) => {
    if (i === 0 || piece !== pieces[i - 1]) lines.push([]);
    lines.at(-1)!.push(tips[i]!.tip);
  });
  return lines.filter((line) => line.length > 1);
}

const SIGN: Readonly<Record<Landmark['what'], (at: Point) => Item[]>> = {
  apex: (at) => [polyline('mark', [add(at, { x: 0, y: -3 }), add(at, { x: 0, y: 3 })])],
  join: (at) => [polyline('mark', [add(at, { x: 0, y: -2 }), add(at, { x: 0, y: 2 })])],
  pin: (at) => [circle('mark', at, 1.2)],
  end: () => [],
};

/** Labels stand under the line, inside the part or below it, where the comb of a rising line is not. */
function signs(view: View): Item[] {
  const { part, at } = view;
  const taken: Point[] = [];
  return settingOut(part).landmarks.flatMap(({ what, at: place }) => {
    const foot = at(place);
    const label = `${what} ${bare(place.x, part.rule)}, ${bare(place.y, part.rule)}`;
    if (what === 'end') return [];
    let y = foot.y - 3 - LABEL_MM;
    const near = (p: Point): boolean =>
      Math.abs(p.x - foot.x) < textWidth(label, LABEL_MM) && Math.abs(p.y - y) < LABEL_MM * LEADING;
    while (taken.some(near)) y -= LABEL_MM * LEADING;
    taken.push({ x: foot.x, y });
    return [...SIGN[what](foot), words(label, { x: foot.x, y }, LABEL_MM, 'middle')];
  });
}

/** The reference line's stations, as on a rule laid under the part. */
function stationRule({ part, at }: View, y: number): Item[] {
  const { bounds, rule } = part;
  const every = stationSpacing(bounds.right - bounds.left, rule.unit, MOST_TICKS);
  const ends = part.edges.flatMap(({ runs }) => [runs[0]!.from.x, runs.at(-1)!.to.x]);
  const stations = stationsEvery(Math.min(...ends), Math.max(...ends), every);
  const x = (station: number): number => at({ x: station, y: 0 }).x;
  const spaced = stations.filter(
    (station, i) => i === 0 || i === stations.length - 1 || x(stations.at(-1)!) - x(station) > 12,
  );
  return [
    polyline('rule', [
      { x: x(stations[0]!), y },
      { x: x(stations.at(-1)!), y },
    ]),
    ...stations.map((station) =>
      polyline('rule', [
        { x: x(station), y },
        { x: x(station), y: y + 2 },
      ]),
    ),
    ...spaced.map((station) =>
      words(bare(station, rule), { x: x(station), y: y - LABEL_MM * 1.2 }, LABEL_MM, 'middle'),
    ),
    words(`stations, ${rule.unit}`, { x: WIDTH_MM - SIDE_MM, y: y + 4 }, LABEL_MM, 'end'),
  ];
}
