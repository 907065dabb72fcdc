import { boundsOf, union } from '../../curves/geometry/bounds.ts';
import { flatten } from '../../curves/geometry/flatten.ts';
import {
  add,
  angleFrom,
  direction,
  distance,
  leftNormal,
  type Point,
  scale,
  subtract,
} from '../../curves/geometry/point.ts';
import type { Part } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import { type RunAdvice, type RunsAdvice, stripToCut } from '../../shop/strip/part-strips.ts';
import { stripFaces } from '../../shop/strip/strip-faces.ts';
import { describeNails, describeStrip, partStripCautions } from '../../shop/words/describe-strip.ts';
import { signalled } from '../../shop/words/safety.ts';
import { Fault } from '../../units/fault.ts';
import { printedLengthWords, sentence } from '../drawing/dimensions.ts';
import { circle, type Drawing, polyline, type Stroke } from '../drawing/drawing.ts';
import { boxesAlongLines } from '../labels/free-space.ts';
import { type RingLabel, ringLabels } from '../labels/ring-labels.ts';
import { fitStandardScale, framePicture, labelArea, PICTURE_LABEL_MM } from './picture-frame.ts';
import type { PictureView } from './picture-view.ts';

const MAX_HEIGHT_MM = 150;
/** A nail to scale would be a speck: it is drawn with this radius, touching the batten where it does. */
const NAIL_RADIUS_MM = 1;
const CLEARANCE_MM = 0.4;
const SURROUND_MM = NAIL_RADIUS_MM * 2 + PICTURE_LABEL_MM * 2;

/** The batten sprung on the bench, its nails numbered as in the words. @throws Fault `strip.no-nails` */
export function composeStripPicture(part: Part, runs: RunsAdvice): Drawing {
  const nailed = runs.filter(({ advice }) => advice.nails.length > 0 && !advice.others);
  const problem = 'this part has no nails for a batten. Draw its curvature comb instead.';
  if (nailed.length === 0) throw new Fault('strip.no-nails', problem);
  const outlines = nailed.map(({ curve, advice }) => {
    const { traced, other } = stripFaces(curve, advice);
    return [...traced, ...other.toReversed()];
  });
  const bounds = union([part.bounds, ...outlines.map(boundsOf)]);
  const { factor, ratio } = fitStandardScale(bounds, MAX_HEIGHT_MM);
  return framePicture(part, {
    bounds,
    factor,
    below: SURROUND_MM,
    above: SURROUND_MM,
    head: `${ratio}, nails enlarged · trace along the face on the black line`,
    foot: stripLines(part, runs),
    draw: (view, { floor, ceiling }) => {
      const path = view.path(finishedLine(part.shape));
      const faces = outlines.map((points) => polyline('mark', points.map(view.at), true));
      const strip = flatten(faces.flatMap((face) => face.path));
      const occupied = boxesAlongLines([...flatten(path), ...strip], CLEARANCE_MM);
      return [
        ...faces,
        { type: 'stroke', style: 'cut', path, closed: part.shape.type === 'closed' },
        ...ringLabels(numberedNails(nailed, view), strip, { area: labelArea(floor, ceiling), occupied }),
      ];
    },
  });
}

const numberedNails = (runs: readonly RunAdvice[], view: PictureView): RingLabel[] =>
  runs
    .flatMap(({ advice: { nails, nailDiameter } }) => nails.map((nail) => ({ ...nail, nailDiameter })))
    .map(({ at, centers, clamp, nailDiameter }, i) => {
      const boxes = clamp && [clampBox(view.at(at), view.at(clamp.to))];
      const rings = boxes ?? centers.map((centre) => nailRing(at, centre, nailDiameter / 2, view));
      return { text: String(i + 1), rings };
    });

function clampBox(from: Point, to: Point): Stroke {
  const across = scale(leftNormal(direction(angleFrom(from, to))), NAIL_RADIUS_MM);
  const corners = [add(from, across), add(to, across), subtract(to, across), subtract(from, across)];
  return { ...polyline('mark', corners, true), filled: true };
}

function nailRing(at: Point, centre: Point, radius: number, { at: seen, factor }: PictureView): Stroke {
  const off = distance(at, centre);
  const out = scale(subtract(centre, at), 1 / off);
  const middle = add(seen(at), scale(out, (off - radius) * factor + NAIL_RADIUS_MM));
  return { ...circle('mark', middle, NAIL_RADIUS_MM), filled: true };
}

function stripLines(part: Part, runs: RunsAdvice): string[] {
  const { rule } = part;
  const several = part.edges.length > 1 && runs.length > 1;
  let number = 0;
  const nails = runs.flatMap(({ edge, advice }) => {
    const [head, ...lines] = describeNails(advice, rule);
    if (head === undefined) return [];
    return [several ? `${edge}: ${head}` : head, ...lines.map((line) => `${++number}. ${line}`)];
  });
  const cautions = partStripCautions(runs, rule).map(signalled);
  return [...describeStrip(stripToCut(runs), printedLengthWords(rule)), ...nails, ...cautions].map(sentence);
}
