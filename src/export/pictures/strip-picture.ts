import { boxOf, unitedBox } from '../../curves/geometry/bounds.ts';
import { chordsOf } from '../../curves/geometry/flatten.ts';
import { add, distance, type Point, scale, subtract } from '../../curves/geometry/point.ts';
import { finishedLine } from '../../part/finished-line.ts';
import type { Part } from '../../part/part.ts';
import { type RunAdvice, type RunsAdvice, stripToCut } from '../../shop/strip/part-strips.ts';
import { type StripFaces, stripFaces } from '../../shop/strip/strip-faces.ts';
import { cautionsOf, sayNails, sayStrip } from '../../shop/words/describe-strip.ts';
import { Fault } from '../../units/fault.ts';
import { sentence, wordingOf } from '../card/card-words.ts';
import { circle, type Drawing, polyline, type Stroke } from '../drawing/drawing.ts';
import { scaleWords, usualScale } from '../drawing/drawing-scale.ts';
import { strips } from '../labels/free-space.ts';
import { type LabelledRings, labelledRings } from '../labels/ring-labels.ts';
import {
  floorOver,
  INNER_MM,
  LABEL_MM,
  pictureLines,
  pictureSheet,
  SIDE_MM,
  WIDTH_MM,
} from './picture-frame.ts';
import { type PictureView, pictureView } from './picture-view.ts';

/** A tall part is drawn smaller rather than let the picture grow far higher than it is wide. */
const MOST_HEIGHT_MM = 150;
/** A nail to scale would be a speck: it is drawn with this radius, touching the strip where it does. */
const NAIL_MM = 1;
/** White round a line, that no number covers. */
const WHITE_MM = 0.4;
/** Kept free round the drawing for nails and their numbers. */
const ROUND_MM = NAIL_MM * 2 + LABEL_MM * 2;

/**
 * The strip as it lies sprung on the bench, to scale: its traced face on the part's line, its ends straight on beyond
 * the last nails, and every nail on the side where it stands, numbered as in the words below.
 * @throws Fault `strip.no-nails` for a part without a batten
 */
export function composeStripPicture(part: Part, runs: RunsAdvice): Drawing {
  const nailed = runs.filter(({ advice }) => advice.nails.length > 0);
  if (nailed.length === 0)
    throw new Fault(
      'strip.no-nails',
      'the part has no batten, so that no nails hold a strip to it. Its curvature can be drawn instead.',
    );
  const lying = nailed.map(({ curve, advice }) => outlineOf(stripFaces(curve, advice)));
  const foot = footLines(part, runs);
  const round = unitedBox([part.bounds, ...lying.map(boxOf)]);
  const [wide, high] = [round.right - round.left, round.top - round.bottom];
  const factor = usualScale(Math.min(INNER_MM / wide, MOST_HEIGHT_MM / high));
  const bottom = floorOver(foot) + ROUND_MM;
  const ceiling = bottom + high * factor + ROUND_MM;
  const shift = {
    x: (WIDTH_MM - (round.left + round.right) * factor) / 2,
    y: bottom - round.bottom * factor,
  };
  const view = pictureView(part, factor, shift);
  const line = view.path(finishedLine(part.shape));
  const faces = lying.map((points) => polyline('mark', points.map(view.at), true));
  const strip = chordsOf(faces.flatMap(({ path }) => path));
  const room = {
    area: {
      left: SIDE_MM,
      right: WIDTH_MM - SIDE_MM,
      bottom: bottom - ROUND_MM,
      top: ceiling,
    },
    taken: strips([...chordsOf(line), ...strip], WHITE_MM),
  };
  const head = [`${scaleWords(factor)}, the nails larger; the face on the black line is the one to trace`];
  return pictureSheet({ title: part.name, head, foot }, ceiling, [
    ...faces,
    { type: 'stroke', style: 'cut', path: line, closed: part.shape.type === 'closed' },
    ...labelledRings(nailsOf(nailed, view), strip, room),
  ]);
}

const outlineOf = ({ traced, other }: StripFaces): Point[] => [...traced, ...other.toReversed()];

/** Nails from 1 on, all runs through, a held end’s two as one. */
const nailsOf = (runs: readonly RunAdvice[], view: PictureView): LabelledRings[] =>
  runs
    .flatMap(({ advice: { nails, nailDiameter } }) =>
      nails.map(({ at, centres }) => centres.map((centre) => ring(at, centre, nailDiameter / 2, view))),
    )
    .map((rings, i) => ({ text: String(i + 1), rings }));

function ring(at: Point, centre: Point, radius: number, { at: seen, factor }: PictureView): Stroke {
  const off = distance(at, centre);
  const out = scale(subtract(centre, at), 1 / off);
  const middle = add(seen(at), scale(out, (off - radius) * factor + NAIL_MM));
  return { ...circle('mark', middle, NAIL_MM), filled: true };
}

/** Which strip, where its nails stand, and what to heed: as `fairlath batten` tells it, the nails numbered. */
function footLines(part: Part, runs: RunsAdvice): string[] {
  const { rule } = part;
  const { length } = wordingOf(rule);
  const several = part.edges.length > 1 && runs.length > 1;
  let number = 0;
  const nails = runs.flatMap(({ edge, advice }) => {
    const [head, ...lines] = sayNails(advice, rule);
    if (head === undefined) return [];
    return [several ? `${edge}: ${head}` : head, ...lines.map((line) => `${++number}. ${line}`)];
  });
  const cautions = cautionsOf(runs, rule).map(({ message }) => `Take care: ${message}`);
  return [...sayStrip(stripToCut(runs), length, rule.unit), ...nails, ...cautions]
    .map(sentence)
    .flatMap(pictureLines);
}
