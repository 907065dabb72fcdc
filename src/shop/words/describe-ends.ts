import { type CompoundAngles, levelFaceStance } from '../../part/ends/compound-angles.ts';
import { type EndSides, endLean } from '../../part/ends/end-lean.ts';
import { type CutCorner, isSquare, longAndShortPoints, type PartEnd } from '../../part/ends/end-planes.ts';
import type { Part } from '../../part/part.ts';
import type { ShowLength } from '../../units/fault.ts';
import type { LengthFormat } from '../../units/graduation.ts';
import { present } from '../../units/lists.ts';
import { showAngle } from '../../units/number-format.ts';
import { quoted } from '../../units/quoted.ts';
import type { Sawing } from '../saw/advise-sawing.ts';
import { type EndSetUp, endSetUp, leanOfBlade } from '../saw/end-set-up.ts';
import { COMMON_SAWS, type EndCut, planEndCut, type TableSaw } from '../saw/saw-depth.ts';

/** An end's angles, which way it leans, its points, and how the saw cuts through. */
export function describeEnd(
  part: Part,
  cut: EndCut,
  { tableSaw, edges }: Pick<Sawing, 'tableSaw' | 'edges'>,
  words: LengthFormat,
): string[] {
  const { end } = cut;
  const depth = depthWords(cut, part.stock?.thickness, tableSaw, words);
  if (isSquare(end)) return [`${end.side} end: square`, ...depth];
  return [
    `${end.side} end: ${endAngleWords(end, part)}`,
    endLeanWords(end, part),
    reachWords(end, words.exact),
    ...(cut.passes === 'too steep' ? [] : [setUpWords(endSetUp(end, edges))]),
    ...depth,
  ];
}

/** "miter 6°, blade tilt 4°; as a leg stands rake 6°, splay 4°: a lean of 7.2° along a sight line 33.6° …". */
function endAngleWords(end: PartEnd, part: Part): string {
  const { rake, splay, lean, sight } = end.angles;
  const saw = cutAngleWords(end.angles, showAngle);
  if (splay === 0) return `${saw}, blade upright`;
  const stance = stanceWords({ rake, splay });
  const level = stanceWords(levelFaceStance(end.angles));
  const turned = level === stance ? '' : `, or ${level} with the marked face level across`;
  const leg = `as a leg stands ${stance}, not twisted about its length${turned}`;
  const { edge, on = 'face' } = endLean(end, part).leansTowards;
  const from = Math.min(Math.abs(sight), Math.PI - Math.abs(sight));
  const square = `the line square to ${edge === undefined ? 'the edges' : quoted(edge)}`;
  return `${saw}; ${leg}: a lean of ${showAngle(lean)} along a sight line ${showAngle(from)} from ${square} towards ${FACES[on]}`;
}

/** "the marked face up, "outer" against the gauge: swing the gauge 4° clockwise …; the blade leans to the left …". */
function setUpWords(setUp: EndSetUp): string {
  const { edge, swing, tilt } = setUp;
  const against = edge === undefined ? 'the board’s edge along the reference line' : quoted(edge);
  const way = swing > 0 ? 'clockwise' : 'counterclockwise';
  const lean = leanOfBlade(setUp);
  const settings = present(
    swing !== 0 && `swing the gauge ${showAngle(Math.abs(swing))} ${way}, seen from above`,
    lean &&
      `the blade leans ${showAngle(Math.abs(tilt))} to the ${lean} as it rises, seen from where you feed`,
  );
  const other = lean
    ? '. A saw that tilts the other way: the board’s other edge against the gauge, the same swing'
    : '';
  return `the marked face up, ${against} against the gauge: ${settings.join('; ')}${other}`;
}

const stanceWords = ({ rake, splay }: Pick<CompoundAngles, 'rake' | 'splay'>): string =>
  `rake ${showAngle(rake)}, splay ${showAngle(splay)}`;

function depthWords(
  { needs, reach, passes, end }: EndCut,
  thickness: number | undefined,
  saw: TableSaw,
  { exact, unit }: LengthFormat,
): string[] {
  const { bevel } = end.angles;
  if (passes === 'too steep')
    return [
      'steeper than a table saw is commonly set (blade 45°, gauge 60°): saw it by hand to the line on all four sides, ' +
        'or on a sled whose wedge carries the part at that angle.',
    ];
  if (needs === undefined || thickness === undefined) return [];
  const tilt = bevel === 0 ? '' : ` at a blade tilt of ${showAngle(Math.abs(bevel))}`;
  const depths = `${exact(thickness)} thick${tilt} needs ${exact(needs)} of blade, ${saw.name[unit]} gives ${exact(reach)}`;
  if (passes === 'one face') return [`${depths}: one pass.`];
  const larger = COMMON_SAWS.find(
    (other) => other.depth > saw.depth && planEndCut(end, thickness, other).passes === 'one face',
  );
  const or = larger ? `, or take ${larger.name[unit]}` : '';
  return passes === 'two faces'
    ? [`${depths}: cut from two faces${or}.`, SECOND_FACE_WORDS]
    : [
        `${depths}, and two cuts leave wood between them: saw the rest by hand, guided by both kerfs` +
          `${or}, or cut the end on the band saw with a sled, its table tilted.`,
      ];
}

/** Half a turn about the line across the part maps the plane of the cut onto itself, with the miter reversed. */
const SECOND_FACE_WORDS =
  'For the second, turn the part end for end onto its other face, to the other side of the blade, and swing the ' +
  'gauge as far the other way; the blade’s tilt stays.';

/** "miter 6°, blade tilt 4°", or "square": how to set the gauge and the saw. */
export function cutAngleWords({ miter, bevel }: CompoundAngles, show: (radians: number) => string): string {
  const angles = present(miter !== 0 && `miter ${show(miter)}`, bevel !== 0 && `blade tilt ${show(bevel)}`);
  return angles.join(', ') || 'square';
}

const FACES: Readonly<Record<CutCorner['on'], string>> = {
  face: 'the marked face',
  back: 'the other face',
  'both faces': 'both faces',
};

/** "long at the edge "outer" and the other face". */
export const longAtWords = (end: PartEnd, part: Part): string =>
  `long at ${sidesWords(endLean(end, part).longAt)}`;

/** The same, and how the part stands on that end where the job tells it so. */
export const endLeanWords = (end: PartEnd, part: Part): string =>
  end.by === 'stance'
    ? `${longAtWords(end, part)}; stood on this end, the other end leans towards ${sidesWords(endLean(end, part).leansTowards)}`
    : longAtWords(end, part);

const sidesWords = ({ edge, on }: EndSides): string =>
  present(edge !== undefined && `the edge ${quoted(edge)}`, on && FACES[on]).join(' and ');

/** "long point: station 34, offset 2, on the marked face; short point: station 33 5/8, offset 0, on the other face". */
export function reachWords(end: PartEnd, show: ShowLength): string {
  const { long, short } = longAndShortPoints(end);
  const at = ({ x, y, on }: CutCorner): string => `station ${show(x)}, offset ${show(y)}, on ${FACES[on]}`;
  return `long point: ${at(long)}; short point: ${at(short)}`;
}
