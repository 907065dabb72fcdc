import { type CurveComparison, liesApart } from '../../curves/compare/compare-kinds.ts';
import type { Curve } from '../../curves/curve.ts';
import { fairnessOf } from '../../curves/fairness/fairness.ts';
import { isShoulder } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { apexName, figuresOf } from '../../curves/measurements.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { showSizes } from '../../units/graduation.ts';
import { present } from '../../units/lists.ts';
import { degrees, showAngle } from '../../units/number-format.ts';
import { type Rule, readOnRule, showLength, showNearest, showOnRule } from '../../units/rule.ts';
import { jobCommand } from '../define-command.ts';
import { writePicture } from '../files/atomic-write.ts';
import { forceOption, pictureOption } from '../options/shared-options.ts';
import {
  endJson,
  endsText,
  jointJson,
  jointsText,
  standsJson,
  standsText,
} from '../output/joinery-output.ts';
import { placeJson, pointJson, textTable } from '../output/print-answer.ts';

export const makeCommand = jobCommand({
  name: 'show',
  summary: 'the numbers of the curve, and how fair it is',
  description:
    'List the numbers of each curve: apex, nail, rise, length, tightest radius, end angles and fairness. Also show how ' +
    'much other kinds of curve with the same rise would differ.',
  options: [pictureOption('also draw the part with its curvature comb'), forceOption],
  notes: [
    'The nail is not the apex. Unless the nail is in the middle, the batten rises higher in its longer span.',
  ],
  files: 'Reads JOB. Writes the SVG that --picture names.',
  examples: [
    'fairlath show samples/hall-bench-leg.yaml',
    'fairlath show samples/hall-bench-leg.yaml --picture leg.svg',
    'fairlath show samples/garden-arch-rail.yaml --json',
    'fairlath show --curve batten --chord 28 --rise 3/4 --nail 12',
  ],
  run: async ({ part, file }, options) => {
    await writePicture(options, [file], part.name, async () =>
      (await import('../../export/pictures/part-picture.ts')).composePicture(part),
    );
    return { part, json: () => asJson(part), text: () => asText(part) };
  },
});

function asJson(part: Part): object {
  const { shape } = part;
  return {
    edges: part.edges.map((edge) => edgeJson(edge, part.rule)),
    ends: part.ends?.map((end) => endJson(end, part)),
    joints: part.joints.map(jointJson),
    stands: standsJson(part),
    ...(shape.type === 'closed' && {
      leastWidth: { width: shape.leastWidth.width, station: shape.leastWidth.at.x },
      ...(shape.tenons.length > 0 && {
        tenons: shape.tenons.map(({ side, shoulder, width, at }) => {
          return { side, shoulder, width, station: at.x };
        }),
      }),
    }),
  };
}

function edgeJson({ name, length, runs, parallel }: PartEdge, rule: Rule): object {
  const { remarks, joins, inflections, leastBump } = fairnessOf(runs);
  const show = (mm: number): string => showLength(mm, rule);
  return {
    name,
    length,
    ...(parallel && { parallel }),
    runs: runs.map(runJson),
    fairness: {
      remarks: remarks.map(({ code, at, message }) => ({ code, station: at?.x, message: message(show) })),
      joins: joins.map(({ at, turn, jump: curvatureJump }) => {
        return { station: at.x, turnDeg: degrees(turn), curvatureJump };
      }),
      inflections: inflections.map(({ x }) => x),
      leastBump: leastBump && { size: leastBump.size, station: leastBump.at.x },
    },
  };
}

function runJson(run: Curve): object {
  const { apex, tightest, length, endAngles, inflections } = figuresOf(run);
  return {
    kind: run.kind,
    from: pointJson(run.from),
    to: pointJson(run.to),
    length,
    apex: apex && { ...placeJson(apex.at), rise: apex.rise },
    pins: run.pins.map(pointJson),
    minRadius: tightest && { radius: tightest.radius, station: tightest.at.x },
    endAnglesDeg: endAngles.map(degrees),
    inflections: inflections.map(({ x }) => x),
    apart: liesApart(run).map(({ kind, worst, at, sameApex }) => ({ kind, worst, station: at.x, sameApex })),
  };
}

const asText = (part: Part): string =>
  present(
    title(part),
    ...part.edges.map((edge) => edgeText(edge, part.rule)),
    nailText(part),
    widthText(part),
    standsText(part),
    endsText(part),
    jointsText(part),
    !!part.notes && part.notes.trim(),
  ).join('\n\n');

function title({ name, quantity, stock, rule, laminate }: Part): string {
  const sizes = [stock?.length, stock?.width, stock?.thickness].filter((size) => size !== undefined);
  const board = sizes.length > 0 && showSizes(sizes, rule);
  const facts = [quantity > 1 && `quantity ${quantity}`, stock?.species, laminate && 'laminated', board];
  return [name, facts.filter(Boolean).join(', ')].filter(Boolean).join('\n');
}

const edgeText = ({ name, length, runs, parallel }: PartEdge, rule: Rule): string =>
  [
    `${name}: ${showNearest(length, rule)} along the edge`,
    ...(parallel ? [`  parallel to "${parallel.to}", ${showLength(Math.abs(parallel.by), rule)} off`] : []),
    ...runs.map((run) => runText(run, rule)),
    ...fairnessOf(runs).remarks.map(({ message }) => `  ${message((mm) => showLength(mm, rule))}`),
  ].join('\n');

/** The center is half a nail off the curve, and by the batten's thickness more where the batten is between. */
const nailText = ({ edges }: Part): string | undefined =>
  edges.some(({ runs }) => runs.some(({ kind, pins }) => kind === 'batten' && pins.length > 2))
    ? 'A nail is beside the batten, not on the curve. For the center of each nail, use: fairlath batten JOB'
    : undefined;

function runText(run: Curve, rule: Rule): string {
  const [from, to] = [placeText(run.from, rule), placeText(run.to, rule)];
  const first = run.exact.some(isShoulder)
    ? ['  shoulder', `${from} to ${showOnRule(run.to.y, rule)}`]
    : [`  ${run.kind}`, `${from}  to  ${to}`];
  const rows = [first, ...(run.kind === 'line' ? [] : figureRows(run, rule))];
  return textTable(rows, { align: 'left', gap: 2, firstWidth: LABEL_WIDTH });
}

const placeText = ({ x, y }: Point, rule: Rule): string =>
  `station ${showOnRule(x, rule)}, offset ${showOnRule(y, rule)}`;

function figureRows(run: Curve, rule: Rule): string[][] {
  const { apex, tightest, endAngles, inflections, length } = figuresOf(run);
  const at = (place: Point): string => placeText(place, rule);
  const nails = run.pins
    .slice(1, -1)
    .map((pin) =>
      run.kind === 'batten' ? ['    nail', `the curve passes ${at(pin)}`] : ['    point', at(pin)],
    );
  const radius = tightest && showNearest(tightest.radius, rule);
  const [start, end] = endAngles.map(showAngle);
  return present(
    ...nails,
    apex && [`    ${apexName(run)}`, `${at(apex.at)}; rise ${showLength(apex.rise, rule)} above its chord`],
    ['    length', showNearest(length, rule)],
    tightest &&
      (run.kind === 'arc'
        ? ['    radius', `${radius}`]
        : ['    tightest', `radius ${radius} at station ${showOnRule(tightest.at.x, rule)}`]),
    ['    ends', `${start} at the start, ${end} at the end, from the reference line`],
    ...inflections.map((p) => ['    inflection', `station ${showOnRule(p.x, rule)}`]),
    ...liesApart(run).map((apart) => ['    apart', apartText(apart, rule)]),
  );
}

const KIND_WITH_ARTICLE: Readonly<Record<CurveComparison['kind'], string>> = {
  arc: 'an arc',
  batten: 'a free batten over one nail',
  bow: 'a bow',
  spline: 'a natural spline',
};

function apartText({ kind, worst, at, sameApex }: CurveComparison, rule: Rule): string {
  const other = `${KIND_WITH_ARTICLE[kind]} with this rise${sameApex ? '' : ', its apex in the middle,'}`;
  if (readOnRule(worst, rule).mark === 0) return `${other} is the same on your rule`;
  return `${other} is ${showNearest(worst, rule)} away at station ${readOnRule(at.x, rule).text}`;
}

/** As wide as the longest label, so that the figures of all runs line up. */
const LABEL_WIDTH = '    inflection'.length;

function widthText({ shape, rule }: Part): string | undefined {
  if (shape.type !== 'closed') return undefined;
  const { leastWidth, tenons } = shape;
  const place = ({ width, at }: typeof leastWidth): string =>
    `${showLength(width, rule)} at station ${showOnRule(at.x, rule)}`;
  const between = tenons.length > 0 ? ', without its tenons' : '';
  const lines = tenons.map((tenon) => `tenon        ${place(tenon)}, ${tenon.side} end`);
  return [`least width  ${place(leastWidth)}${between}`, ...lines].join('\n');
}
