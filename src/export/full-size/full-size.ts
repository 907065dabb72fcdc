import {
  type Affine,
  IDENTITY,
  isReflection,
  transformPoint,
  translate,
} from '../../curves/geometry/affine.ts';
import { type Box, pathBounds, union } from '../../curves/geometry/bounds.ts';
import { fitPath } from '../../curves/geometry/fit-cubics.ts';
import type { Piece, Segment } from '../../curves/geometry/pieces/piece.ts';
import { FIT_MM } from '../../curves/geometry/tolerance.ts';
import { transformPath } from '../../curves/geometry/transform.ts';
import type { LayerName, LineStyle, Words } from '../drawing/drawing.ts';
import { textWidth } from '../drawing/text-width.ts';

/** In the order they are drawn. */
const LAYER_ORDER: readonly LayerName[] = ['board', 'marks', 'text', 'joints', 'parallel', 'saw', 'cut'];

/**
 * How far cubics and parallels may lie off the exact line here, mm: so little that the arcs, which keep
 * ARC_FIT_MM, lie within FIT_MM of the cubics as well as of the line.
 */
export const CURVE_FIT_MM = FIT_MM / 20;
export const ARC_FIT_MM = FIT_MM * 0.88;

/** A whole part at true size, before any file format, in the part's own frame, mm. */
export interface FullSize extends Background {
  readonly name: string;
  /** Where it is drawn, once for each: moved, turned or mirrored, never stretched. */
  readonly copies: readonly [Affine, ...Affine[]];
  /** What is drawn once, in the drawing's own frame: the board that copies lie on, and words about them. */
  readonly background?: Background;
}

interface Background {
  readonly lines: readonly FullLine[];
  readonly words: readonly Words[];
}

export interface FullLine {
  readonly layer: Exclude<LayerName, 'text'>;
  readonly style: LineStyle;
  /** What it is, in the maker's words. */
  readonly title: string;
  /** Contiguous; within CURVE_FIT_MM of the true line where it is a parallel, else the line itself. */
  readonly exact: readonly Piece[];
  readonly closed: boolean;
}

/** A line and everywhere it is drawn. */
export interface DrawnLine {
  readonly line: FullLine;
  readonly copies: readonly Affine[];
}

/** How far a drawing is moved: right and up, mm. */
type Translation = readonly [x: number, y: number];

const NO_TRANSLATION: Translation = [0, 0];
const ONCE: readonly Affine[] = [IDENTITY];

/** All lines of a drawing, the ground's first. */
export function drawnLines({ background, lines, copies }: FullSize, [x, y] = NO_TRANSLATION): DrawnLine[] {
  const at = (places: readonly Affine[]): Affine[] => places.map((place) => translate(place, x, y));
  return [
    ...(background?.lines ?? []).map((line) => ({ line, copies: at(ONCE) })),
    ...lines.map((line) => ({ line, copies: at(copies) })),
  ];
}

/** All words of a drawing, where they stand in it. */
export const drawnWords = ({ background, words, copies }: FullSize, [x, y] = NO_TRANSLATION): Words[] =>
  [
    { words: background?.words ?? [], copies: ONCE },
    { words, copies },
  ].flatMap((set) =>
    set.copies.flatMap((copy) => set.words.map((each) => transformWords(translate(copy, x, y), each))),
  );

/** The layers that hold anything, in the order they are drawn. */
export function usedLayers(full: FullSize): LayerName[] {
  const used = new Set<LayerName>(drawnLines(full).map(({ line }) => line.layer));
  if (drawnWords(full).length > 0) used.add('text');
  return LAYER_ORDER.filter((layer) => used.has(layer));
}

/** The line as writers of cubics draw it, in the part's frame. */
export const curvePath = ({ exact }: FullLine): Segment[] => fitPath(exact, CURVE_FIT_MM);

/** Words on one copy: set the right way round even where the part is mirrored. */
function transformWords(copy: Affine, words: Words): Words {
  const [a, b, c, d] = copy;
  const turn = words.turn ?? 0;
  const along = transformPoint([a, b, c, d, 0, 0], { x: Math.cos(turn), y: Math.sin(turn) });
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

/** Round all that is drawn, mm. */
export function fullSizeBounds(full: FullSize): Box {
  const lines = drawnLines(full).flatMap(({ line, copies }) => {
    const path = curvePath(line);
    return copies.map((copy) => pathBounds(transformPath(path, copy)));
  });
  return union([...lines, ...drawnWords(full).map(wordsBounds)]);
}

/** Round one line of words, with what of its letters hangs below; about, where they are turned. */
function wordsBounds({ text, at, size, anchor, turn = 0 }: Words): Box {
  const width = textWidth(text, size);
  const from = anchor === 'start' ? 0 : anchor === 'middle' ? -width / 2 : -width;
  const corners = [from, from + width].flatMap((x) => [-0.3 * size, size].map((y) => ({ x, y })));
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const xs = corners.map(({ x, y }) => at.x + x * cos - y * sin);
  const ys = corners.map(({ x, y }) => at.y + x * sin + y * cos);
  return { left: Math.min(...xs), right: Math.max(...xs), bottom: Math.min(...ys), top: Math.max(...ys) };
}
