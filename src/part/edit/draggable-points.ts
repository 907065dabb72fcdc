import { evaluate } from '../../curves/geometry/evaluate.ts';
import { type Point, toPoint } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { apexOf } from '../../curves/measurements.ts';
import { stepHandles } from '../../job/steps/step-kinds.ts';
import { itemAt } from '../../units/checked.ts';
import { edgeEnd, edgeStart } from '../edge.ts';
import type { Part, PartEdge, PartRun } from '../part.ts';

/** A place of the part that can be dragged, and the lengths of the job that it sets. */
export interface Grip {
  /** The key of the job file that holds it: `edges.back[1].apex`. */
  readonly key: string;
  /** What is dragged. */
  readonly what: 'end' | 'join' | 'nail' | 'point' | 'apex' | 'parallel';
  /** The name of the edge it is on. */
  readonly edge: string;
  /** Where it stands, mm. */
  readonly at: Point;
  /** The lengths of the job that moving it writes. */
  readonly sets: readonly GripLength[];
}

/** One length that a grip sets, as it stands in the job, mm. */
export interface GripLength {
  readonly key: string;
  readonly mm: number;
  readonly what: 'station' | 'offset' | 'rise' | 'radius' | 'distance';
  /** Of the run that a rise or a radius belongs to. */
  readonly chord?: readonly [Point, Point];
  /** The direction in which the distance of a parallel grows, radians. */
  readonly outward?: number;
}

/** Every place of a part that can be moved, edge by edge from its start. */
export const gripsOf = ({ edges }: Pick<Part, 'edges'>): Grip[] =>
  edges.flatMap((edge) =>
    edge.parallel ? [makeDistanceGrip(edge, edge.parallel.by)] : drawnGrips(edges, edge),
  );

const drawnGrips = (edges: Part['edges'], edge: PartEdge): Grip[] => [
  makePointGrip(edge, 'end', ...startOf(edge), oppositeEndLengths(edges, edge, startOf)),
  ...edge.runs.flatMap((run, i) => {
    const last = i === edge.runs.length - 1;
    const also = last ? oppositeEndLengths(edges, edge, endOf) : shoulderPartner(edge, run);
    return [
      ...gripsBetweenEnds(edge, run),
      makePointGrip(edge, last ? 'end' : 'join', endKey(run), run.to, also),
    ];
  }),
];

/** Half-way along a parallel. */
function makeDistanceGrip(edge: PartEdge, by: number): Grip {
  const { pieces, name } = edge;
  const at = evaluate(itemAt(pieces, Math.floor(pieces.length / 2)), pieces.length % 2 === 0 ? 0 : 0.5);
  const key = `${edge.key}.by`;
  const outward = at.angle + Math.PI / 2;
  return {
    key,
    what: 'parallel',
    edge: name,
    at: toPoint(at),
    sets: [{ key, mm: by, what: 'distance', outward }],
  };
}

type KeyedPoint = readonly [key: string, at: Point];

const startOf = (edge: PartEdge): KeyedPoint => [`${edge.key}[0].from`, edgeStart(edge)];
const endOf = (edge: PartEdge): KeyedPoint => [endKey(edge.runs.at(-1)), edgeEnd(edge)];
const endKey = (run: PartRun | undefined): string => `${run?.step?.key}.${run?.step?.kind}`;

function makePointGrip(
  { name }: PartEdge,
  what: Grip['what'],
  key: string,
  at: Point,
  also: readonly GripLength[] = [],
): Grip {
  const sets: GripLength[] = [
    { key: `${key}[0]`, mm: at.x, what: 'station' },
    { key: `${key}[1]`, mm: at.y, what: 'offset' },
  ];
  return { key, what, edge: name, at, sets: [...sets, ...also] };
}

/** The station of the other edge's end where both have the same one: a square end moves as a whole. */
const oppositeEndLengths = (edges: Part['edges'], edge: PartEdge, pointOf: (edge: PartEdge) => KeyedPoint) =>
  edges
    .filter((other) => other !== edge && !other.parallel)
    .map(pointOf)
    .filter(([, at]) => Math.abs(at.x - pointOf(edge)[1].x) <= JOIN_MM)
    .map(([key, at]): GripLength => ({ key: `${key}[0]`, mm: at.x, what: 'station' }));

/** The other corner's station where a run ends in a shoulder: it stays square as it moves. */
function shoulderPartner({ runs }: PartEdge, run: PartRun): GripLength[] {
  const i = runs.indexOf(run);
  return [runs[i - 1], runs[i + 1]].flatMap((other): GripLength[] => {
    if (!other || Math.abs(other.to.x - run.to.x) > JOIN_MM) return [];
    return [{ key: `${endKey(other)}[0]`, mm: other.to.x, what: 'station' }];
  });
}

function gripsBetweenEnds(edge: PartEdge, { step, from, to, exact }: PartRun): Grip[] {
  if (!step) return [];
  return stepHandles(step).flatMap((handle): Grip[] => {
    const key = `${step.key}.${handle.key}`;
    if ('at' in handle) return [makePointGrip(edge, handle.what, key, handle.at)];
    const at = apexOf(exact, from, to)?.at;
    const { what, mm } = handle;
    if (!at) return [];
    return [{ key, what: 'apex', edge: edge.name, at, sets: [{ key, mm, what, chord: [from, to] }] }];
  });
}
