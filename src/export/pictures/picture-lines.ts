import { partLines } from '../../part/part-lines.ts';
import { LINE_STYLES, type Stroke } from '../drawing/drawing.ts';
import { jointLines } from '../sheets/joint-marks.ts';
import type { PictureView } from './picture-view.ts';

/** A part as pictures draw it: finished line and saw line, joints, and dashed where a tilted end comes out on the back. */
export const pictureLines = ({ part, path }: PictureView): Stroke[] => [
  ...partLines(part, ['finished', 'saw', 'back']).map(
    (line): Stroke => ({
      type: 'stroke',
      style: LINE_STYLES[line.role],
      path: path(line.path),
      closed: line.closed,
    }),
  ),
  ...part.joints
    .flatMap((joint) => jointLines(part, joint))
    .map((line): Stroke => ({ type: 'stroke', ...line, path: path(line.path) })),
];
