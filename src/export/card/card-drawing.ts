import { type Box, boundsOf, pathBounds } from '../../curves/geometry/bounds.ts';
import { flatten } from '../../curves/geometry/flatten.ts';
import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import { type Point, point } from '../../curves/geometry/point.ts';
import type { Landmark, Part } from '../../part/part.ts';
import { finishedLine, patternChord } from '../../part/part-lines.ts';
import { cutAngleWords } from '../../shop/words/describe-ends.ts';
import { sortByRank } from '../../units/lists.ts';
import { showAngle } from '../../units/number-format.ts';
import { slantedEnds } from '../cover/joinery-words.ts';
import type { Dimensions } from '../drawing/dimensions.ts';
import type { Item, Stroke } from '../drawing/drawing.ts';
import { jointStrokes, lineAcross, partStrokes } from '../drawing/part-view.ts';
import { LINE_SPACING } from '../drawing/text-width.ts';
import { boxesBeside } from '../labels/free-space.ts';
import { pictureJointLabels, pictureLandmarkLabels, pictureSpace } from '../labels/picture-labels.ts';
import { type Label, type LabelSpace, placeLabels, textBlock } from '../labels/place-labels.ts';
import { standardScale } from '../pictures/picture-frame.ts';
import { type PictureView, pictureView } from '../pictures/picture-view.ts';
import { stationAxis } from '../pictures/station-axis.ts';

const CARD_FACE = { size: 3.3, widthFactor: 1 };
const LABEL_BAND_MM = 10.5;
const STATION_AXIS_MM = 6;
const STATION_OVERRUN_MM = 1.2;
const END_LABEL = { ...CARD_FACE, padding: 1.6, baseline: LINE_SPACING - 0.35 };
const MAX_MARK_LABELS = 12;
/** What gets its label first where there are more landmarks than labels. */
const FIRST_LABELLED: readonly Landmark['what'][] = ['apex', 'most rise', 'shoulder', 'join'];

/** The part at a usual scale; `enlarged`: how many times larger the page is printed than it is laid out. */
export function cardDrawing(part: Part, setting: Dimensions, space: Box, enlarged: number) {
  const lines = [...finishedLine(part.shape), ...part.saw];
  const { left, right, bottom, top } = boundsWithBacks(part, lines, patternChord(part.shape));
  const high = space.top - space.bottom - 2 * LABEL_BAND_MM - STATION_AXIS_MM;
  const across = (space.right - space.left) / Math.max(right - left, Number.MIN_VALUE);
  const most = Math.min(across, high / Math.max(top - bottom, Number.MIN_VALUE));
  const scale = standardScale(most * enlarged);
  const factor = scale / enlarged;
  const ceiling = space.top - LABEL_BAND_MM;
  const x = (space.left + space.right - (left + right) * factor) / 2;
  const view = pictureView(part, factor, point(x, ceiling - top * factor));
  const rule = ceiling - (top - bottom) * factor - LABEL_BAND_MM;
  const strokes = [
    ...partStrokes(view, ['saw', 'finished', 'chord', 'back', 'centre'], { back: 'trim' }),
    ...jointStrokes(view, setting.joints),
  ];
  const stations = stationStrokes(view, setting);
  const area = { left: space.left, right: space.right, bottom: rule + 2.5, top: space.top };
  const labelSpace = pictureSpace(view, area, flatten([...strokes, ...stations].flatMap(({ path }) => path)));
  const landmarks = sortByRank(setting.landmarks, FIRST_LABELLED, ({ what }) => what);
  const labels = [
    ...pictureJointLabels(view, labelSpace, CARD_FACE),
    ...endLabels(view, labelSpace),
    ...pictureLandmarkLabels(view, landmarks, labelSpace, CARD_FACE, MAX_MARK_LABELS),
  ];
  const items = [...stations, ...stationAxis(view, rule, CARD_FACE), ...strokes, ...labels];
  return { items, bottom: rule - STATION_AXIS_MM, scale };
}

export function boundsWithBacks(part: Part, lines: readonly Segment[], others: readonly Point[] = []): Box {
  const { left, right, bottom, top } = pathBounds(lines);
  const backs = (part.ends ?? []).flatMap(({ back }) => back);
  return boundsOf([point(left, bottom), point(right, top), ...backs, ...others]);
}

const stationStrokes = ({ part, path, factor }: PictureView, { stations }: Dimensions): Stroke[] =>
  stations.flatMap(({ station }) => {
    const line = lineAcross(part, station, STATION_OVERRUN_MM / factor);
    return line ? [{ type: 'stroke', style: 'station', path: path([line]) }] : [];
  });

const endLabels = (view: PictureView, space: LabelSpace): Item[] =>
  placeLabels(
    space,
    slantedEnds(view.part).map((end): Label => {
      const { side, face, back } = end;
      const anchor = boundsOf([...face, ...back].map(view.at));
      const isInside = ({ left, right }: Box): boolean =>
        side === 'left' ? left >= anchor.right : right <= anchor.left;
      return {
        anchor,
        competing: [],
        blocks: [textBlock([cutAngleWords(end, showAngle)], END_LABEL)],
        candidates: ({ width, height }) => {
          const boxes = boxesBeside(anchor, width, height);
          return boxes.toSorted((a, b) => Number(isInside(a)) - Number(isInside(b))).map((box) => ({ box }));
        },
      };
    }),
  );
