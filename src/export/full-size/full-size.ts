import { arcPath } from '../../curves/arcs/arc-path.ts';
import type { BulgedArc } from '../../curves/arcs/biarc.ts';
import type { Affine } from '../../curves/geometry/affine.ts';
import { IDENTITY, isReflection, transformPoint, translate } from '../../curves/geometry/affine.ts';
import { type Box, boundsOf, pathBounds, union } from '../../curves/geometry/bounds.ts';
import { fitPath } from '../../curves/geometry/fit-cubics.ts';
import type { Piece, Segment } from '../../curves/geometry/pieces/piece.ts';
import { direction, point } from '../../curves/geometry/point.ts';
import { FIT_MM } from '../../curves/geometry/tolerance.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import type { LayerName, LineStyle, Words } from '../drawing/drawing.ts';
import { textWidth } from '../drawing/text-width.ts';

const LAYER_ORDER: readonly LayerName[] = ['board', 'marks', 'text', 'joints', 'parallel', 'saw', 'cut'];
/** mm off the exact line: so little that the arcs lie within FIT_MM of the cubics as well as of the line. */
export const CURVE_FIT_MM = FIT_MM / 20;
export const ARC_FIT_MM = FIT_MM * 0.88;

/** A whole part at true size, before any file format, in the part's own frame, mm. */
export interface FullSize extends Background {
  readonly name: string;
  /** Where the part is drawn, one map for each copy: moved, turned or mirrored, never stretched. */
  readonly copies: readonly Affine[];
  readonly background?: Background;
}

interface Background {
  readonly lines: readonly FullLine[];
  readonly words: readonly Words[];
}

export interface FullLine {
  readonly layer: Exclude<LayerName, 'text'>;
  readonly style: LineStyle;
  readonly title: string;
  /** Contiguous; a parallel lies within CURVE_FIT_MM of the true line, any other line is the true line. */
  readonly exact: readonly Piece[];
  readonly closed: boolean;
  readonly path: readonly Segment[];
  /** Within ARC_FIT_MM of `exact`, as lines and arcs; fitted on the first call, as only a DXF needs them. */
  readonly arcs: () => readonly BulgedArc[];
}

export function fullLine(line: Omit<FullLine, 'path' | 'arcs'>): FullLine {
  let arcs: readonly BulgedArc[] | undefined;
  const path = fitPath(line.exact, CURVE_FIT_MM);
  return { ...line, path, arcs: () => (arcs ??= arcPath(line.exact, line.closed, ARC_FIT_MM)) };
}

export interface DrawnLine {
  readonly line: FullLine;
  readonly copies: readonly Affine[];
}

type Translation = readonly [x: number, y: number];

function drawnGroups({ background, lines, words, copies }: FullSize, [x, y]: Translation) {
  const groups = [
    { lines: [], words: [], ...background, copies: [IDENTITY] },
    { lines, words, copies },
  ];
  return groups.map((group) => ({ ...group, copies: group.copies.map((copy) => translate(copy, x, y)) }));
}

export const drawnLines = (full: FullSize, by: Translation = [0, 0]): DrawnLine[] =>
  drawnGroups(full, by).flatMap(({ lines, copies }) => lines.map((line) => ({ line, copies })));

export const drawnWords = (full: FullSize, by: Translation = [0, 0]): Words[] =>
  drawnGroups(full, by).flatMap(({ words, copies }) =>
    copies.flatMap((copy) => words.map((each) => transformWords(copy, each))),
  );

export function usedLayers(full: FullSize): LayerName[] {
  const used = new Set<LayerName>(drawnLines(full).map(({ line }) => line.layer));
  if (drawnWords(full).length > 0) used.add('text');
  return LAYER_ORDER.filter((layer) => used.has(layer));
}

function transformWords(copy: Affine, words: Words): Words {
  const [a, b, c, d] = copy;
  const turn = words.turn ?? 0;
  const along = transformPoint([a, b, c, d, 0, 0], direction(turn));
  const mirrored = isReflection(copy);
  const way = mirrored ? -1 : 1;
  const anchors = { start: 'end', middle: 'middle', end: 'start' } as const;
  return {
    ...words,
    at: transformPoint(copy, words.at),
    anchor: mirrored ? anchors[words.anchor] : words.anchor,
    turn: Math.atan2(way * along.y, way * along.x) + 0,
  };
}

export function fullSizeBounds(full: FullSize): Box {
  const lines = drawnLines(full).flatMap(({ line, copies }) =>
    copies.map((copy) => pathBounds(transformPath(line.path, copy))),
  );
  return union([...lines, ...drawnWords(full).map(wordsBounds)]);
}

function wordsBounds({ text, at, size, anchor, turn = 0 }: Words): Box {
  const width = textWidth(text, size);
  const from = anchor === 'start' ? 0 : anchor === 'middle' ? -width / 2 : -width;
  const corners = [from, from + width].flatMap((x) => [-0.3 * size, size].map((y) => point(x, y)));
  const { x: cos, y: sin } = direction(turn);
  return boundsOf(corners.map((corner) => transformPoint([cos, sin, -sin, cos, at.x, at.y], corner)));
}
