import { type Affine, IDENTITY } from '../../curves/geometry/affine.ts';
import { pathBounds } from '../../curves/geometry/bounds.ts';
import { mergeCollinear } from '../../curves/geometry/merge-collinear.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { parallelLine } from '../../part/outline/saw-line.ts';
import type { Part } from '../../part/part.ts';
import { partLines } from '../../part/part-lines.ts';
import { shownJoints } from '../../tiling/grid/required-content.ts';
import { Fault } from '../../units/fault.ts';
import { jointMeasures, jointName } from '../cover/joinery-words.ts';
import { lengthWithoutUnit } from '../drawing/dimensions.ts';
import { type LayerName, LINE_STYLES } from '../drawing/drawing.ts';
import { jointLines } from '../drawing/part-view.ts';
import { CURVE_FIT_MM, type FullLine, type FullSize, fullLine, usedLayers } from './full-size.ts';
import { markLabels, markLines, partTitleWords } from './full-size-marks.ts';

export interface FullSizeOptions {
  readonly only?: readonly LayerName[];
  /** A further line at this distance from the finished one, mm: positive outside, where the saw line runs. */
  readonly parallel?: number;
  readonly mirror?: boolean;
}

/** What is drawn of a part at full size. @throws Fault those of `selectLayers` and of a parallel, `draw.parallel-zero` */
export function fullSize(part: Part, { only, parallel, mirror }: FullSizeOptions = {}): FullSize {
  const lines = fullSizeLines(part, parallel);
  const { left, right } = pathBounds(lines.flatMap(({ path }) => path));
  const copy: Affine = mirror ? [-1, 0, 0, 1, left + right, 0] : IDENTITY;
  const words = [...partTitleWords(part), ...markLabels(part)];
  return selectLayers({ name: part.name, lines, words, copies: [copy] }, only);
}

/** With a parallel at a distance, mm, where one is asked for. */
export const fullSizeLines = (part: Part, parallel?: number): FullLine[] => [
  ...markLines(part),
  ...layoutLines(part),
  ...partFullLines(part, ['chord']),
  ...parallelLines(part, parallel),
  ...partFullLines(part, ['saw', 'finished']),
];

/** @throws Fault `draw.parallel-left-out`, `draw.nothing` where the layers hold nothing */
export function selectLayers(full: FullSize, only: FullSizeOptions['only']): FullSize {
  if (!only) return full;
  if (!only.includes('parallel') && full.lines.some(({ layer }) => layer === 'parallel'))
    throw new Fault(
      'draw.parallel-left-out',
      'the list leaves out the parallel line. Add parallel to the list, or draw no parallel line.',
      '--only',
    );
  const kept = ({ lines, words }: Pick<FullSize, 'lines' | 'words'>) => ({
    lines: lines.filter(({ layer }) => only.includes(layer)),
    words: only.includes('text') ? words : [],
  });
  const some = { ...full, ...kept(full), ...(full.background && { background: kept(full.background) }) };
  if (usedLayers(some).length > 0) return some;
  throw new Fault(
    'draw.nothing',
    `this part has nothing on the ${only.length === 1 ? 'layer' : 'layers'} ${only.join(', ')}. ` +
      'A saw line needs "saw: 1/16" under allowance in the job. A parallel line needs its distance, a board its copies.',
    '--only',
  );
}

type FullSizeRole = 'finished' | 'saw' | 'chord';

const LAYERS: Readonly<Record<FullSizeRole, Pick<FullLine, 'layer' | 'title'>>> = {
  finished: { layer: 'cut', title: 'Finished line' },
  saw: { layer: 'saw', title: 'Saw line' },
  chord: { layer: 'marks', title: 'Chord' },
};

const partFullLines = (part: Part, roles: readonly FullSizeRole[]): FullLine[] =>
  partLines(part, roles).map(({ role, pieces, closed }) =>
    fullLine({
      ...LAYERS[role],
      style: LINE_STYLES[role],
      exact: role === 'saw' ? fineParallel(part, part.sawAllowance) : pieces,
      closed,
    }),
  );

const fineParallel = (part: Part, distance: number): Segment[] =>
  mergeCollinear(parallelLine(part, distance, CURVE_FIT_MM));

/** What is cut out of the face has a layer of its own; crosses, center lines and marks are marks. */
function layoutLines(part: Part): FullLine[] {
  const show = (mm: number): string => lengthWithoutUnit(mm, part.rule);
  return shownJoints(part).flatMap((joint) =>
    jointLines(part, joint).map(({ style, path, closed = false }) =>
      fullLine({
        layer: style === 'joint' ? 'joints' : 'marks',
        style,
        title: `${jointName(joint)}, ${jointMeasures(joint, show)}`,
        exact: path,
        closed,
      }),
    ),
  );
}

function parallelLines(part: Part, distance: number | undefined): FullLine[] {
  if (distance === undefined) return [];
  if (distance === 0)
    throw new Fault(
      'draw.parallel-zero',
      'a parallel line at a distance of 0 is the finished line. Use a positive distance for outside, a negative one for inside.',
      '--parallel',
    );
  try {
    const exact = fineParallel(part, distance);
    const closed = part.shape.type === 'closed';
    return [fullLine({ layer: 'parallel', style: 'parallel', title: 'Parallel line', exact, closed })];
  } catch (error) {
    throw error instanceof Fault ? error.at('--parallel') : error;
  }
}
