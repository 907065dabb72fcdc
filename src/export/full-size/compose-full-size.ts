import { type Affine, IDENTITY } from '../../curves/geometry/affine.ts';
import { pathBounds } from '../../curves/geometry/bounds.ts';
import { mergeCollinear } from '../../curves/geometry/merge-collinear.ts';
import { patternChord } from '../../part/finished-line.ts';
import { parallelLine } from '../../part/outline/saw-line.ts';
import type { Part } from '../../part/part.ts';
import { shownJoints } from '../../tiling/grid/required-content.ts';
import { Fault } from '../../units/fault.ts';
import { jointMeasures, jointName } from '../cover/joint-words.ts';
import { lengthWithoutUnit } from '../drawing/dimensions.ts';
import type { LayerName } from '../drawing/drawing.ts';
import { jointLines } from '../sheets/joint-marks.ts';
import { CURVE_FIT_MM, curvePath, type FullLine, type FullSize, usedLayers } from './full-size.ts';
import { markLabels, markLines, partTitleWords } from './full-size-marks.ts';

export interface FullSizeOptions {
  /** These layers only. */
  readonly only?: readonly LayerName[];
  /** A further line at this distance from the finished one, mm: positive outside, where the saw line runs. */
  readonly parallel?: number;
  /** The other part of a pair: left and right changed over. */
  readonly mirror?: boolean;
}

/**
 * What is drawn of a part at full size: each line with its layer, and the words beside it.
 * @throws Fault those of `onlyLayers`, `draw.parallel-zero`, and those of a parallel
 */
export function fullSize(part: Part, { only, parallel, mirror }: FullSizeOptions = {}): FullSize {
  const lines = fullSizeLines(part, parallel);
  const { left, right } = pathBounds(lines.flatMap(curvePath));
  const copy: Affine = mirror ? [-1, 0, 0, 1, left + right, 0] : IDENTITY;
  const words = [...partTitleWords(part), ...markLabels(part)];
  return selectLayers({ name: part.name, lines, words, copies: [copy] }, only);
}

/** All lines of a part, with a parallel where one is asked for. */
export const fullSizeLines = (part: Part, parallel?: number): FullLine[] => [
  ...markLines(part),
  ...layoutLines(part),
  ...chordLines(part),
  ...parallelLines(part, parallel),
  ...sawLines(part),
  cutLine(part),
];

/**
 * These layers of a drawing; all of them where none are named.
 * @throws Fault `draw.parallel-left-out`, `draw.nothing` where they hold nothing
 */
export function selectLayers(full: FullSize, only: FullSizeOptions['only']): FullSize {
  if (!only) return full;
  if (!only.includes('parallel') && full.lines.some(({ layer }) => layer === 'parallel'))
    throw new Fault(
      'draw.parallel-left-out',
      'it leaves out the line that --parallel asks for. Add parallel to its list, or leave one of them out.',
      '--only',
    );
  const kept = ({ lines, words }: Pick<FullSize, 'lines' | 'words'>) => ({
    lines: lines.filter(({ layer }) => only.includes(layer)),
    words: only.includes('text') ? words : [],
  });
  const some = { ...full, ...kept(full), ...(full.background && { background: kept(full.background) }) };
  if (usedLayers(some).length === 0) throw nothingDrawnFault(only);
  return some;
}

const nothingDrawnFault = (only: readonly LayerName[]): Fault =>
  new Fault(
    'draw.nothing',
    `this part has nothing on the ${only.length === 1 ? 'layer' : 'layers'} ${only.join(', ')}. ` +
      'A saw line needs "saw: 1/16 in" under allowance in the job, a parallel needs --parallel, a board --nest.',
    '--only',
  );

const isClosedPart = ({ edges }: Part): boolean => edges.length > 1;

function cutLine(part: Part): FullLine {
  return {
    layer: 'cut',
    style: 'cut',
    title: 'Finished line',
    exact: part.exact,
    closed: isClosedPart(part),
  };
}

/** What is cut out of the face is on a layer of its own; crosses, centre lines and marks are marks. */
function layoutLines(part: Part): FullLine[] {
  const show = (mm: number): string => lengthWithoutUnit(mm, part.rule);
  return shownJoints(part).flatMap((joint) =>
    jointLines(part, joint).map(
      ({ style, path, closed = false }): FullLine => ({
        layer: style === 'joint' ? 'joints' : 'marks',
        style,
        title: `${jointName(joint)}, ${jointMeasures(joint, show)}`,
        exact: path,
        closed,
      }),
    ),
  );
}

function sawLines(part: Part): FullLine[] {
  if (part.sawAllowance === 0) return [];
  const exact = mergeCollinear(parallelLine(part, part.sawAllowance, CURVE_FIT_MM));
  return [{ layer: 'saw', style: 'saw', title: 'Saw to this line', exact, closed: isClosedPart(part) }];
}

function parallelLines(part: Part, distance: number | undefined): FullLine[] {
  if (distance === undefined) return [];
  if (distance === 0)
    throw new Fault(
      'draw.parallel-zero',
      'a parallel 0 away is the line itself. Give a distance: positive outside, negative inside.',
      '--parallel',
    );
  const exact = withParallelOption(() => mergeCollinear(parallelLine(part, distance, CURVE_FIT_MM)));
  return [{ layer: 'parallel', style: 'parallel', title: 'Parallel', exact, closed: isClosedPart(part) }];
}

function withParallelOption<T>(make: () => T): T {
  try {
    return make();
  } catch (error) {
    throw error instanceof Fault ? error.at('--parallel') : error;
  }
}

function chordLines({ shape }: Part): FullLine[] {
  const chord = patternChord(shape);
  if (!chord) return [];
  const [from, to] = chord;
  return [
    { layer: 'marks', style: 'chord', title: 'Chord', exact: [{ type: 'line', from, to }], closed: false },
  ];
}
