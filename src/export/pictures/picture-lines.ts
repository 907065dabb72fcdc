import { finishedLine } from '../../part/finished-line.ts';
import { slantedEnds } from '../cover/end-words.ts';
import { polyline, type Stroke } from '../drawing/drawing.ts';
import { jointLines } from '../sheets/joint-marks.ts';
import type { PictureView } from './picture-view.ts';

/** A part as pictures draw it: finished line and saw line, joints, and dashed where a tilted end comes out on the back. */
export const partLines = (view: PictureView): Stroke[] => [...outlineItems(view), ...joineryItems(view)];

function outlineItems({ part, path }: PictureView): Stroke[] {
  const closed = part.shape.type === 'closed';
  const stroke = (style: 'cut' | 'saw', line: Stroke['path']): Stroke => ({
    type: 'stroke',
    style,
    path: path(line),
    closed,
  });
  const saw = part.saw.length > 0 ? [stroke('saw', part.saw)] : [];
  return [stroke('cut', finishedLine(part.shape)), ...saw];
}

function joineryItems({ part, at, path }: PictureView): Stroke[] {
  const backs = slantedEnds(part).filter(({ angles }) => angles.splay !== 0);
  return [
    ...backs.map(({ back }) => polyline('fold', back.map(at))),
    ...part.joints
      .flatMap((joint) => jointLines(part, joint))
      .map((one): Stroke => ({ type: 'stroke', ...one, path: path(one.path) })),
  ];
}
