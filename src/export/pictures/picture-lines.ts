import type { Joint } from '../../job/joints/joint-kinds.ts';
import { type LineRole, partLines } from '../../part/part-lines.ts';
import { LINE_STYLES, type LineStyle, type Stroke } from '../drawing/drawing.ts';
import { jointLines } from '../sheets/joint-marks.ts';
import type { PictureView } from './picture-view.ts';

export const pictureLines = (view: PictureView): Stroke[] => [
  ...partStrokes(view, ['finished', 'saw', 'back']),
  ...jointStrokes(view, view.part.joints),
];

/** Some lines of a part, in their usual styles but for those given. */
export const partStrokes = <R extends LineRole>(
  { part, path }: PictureView,
  roles: readonly R[],
  styles: { readonly [role in R]?: LineStyle } = {},
): Stroke[] =>
  partLines(part, roles).map((line) => ({
    type: 'stroke',
    style: styles[line.role] ?? LINE_STYLES[line.role],
    path: path(line.path),
    closed: line.closed,
  }));

export const jointStrokes = ({ part, path }: PictureView, joints: readonly Joint[]): Stroke[] =>
  joints
    .flatMap((joint) => jointLines(part, joint))
    .map((line) => ({ type: 'stroke', ...line, path: path(line.path) }));
