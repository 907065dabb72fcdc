import { type CompoundAngles, levelFaceStance } from '../../part/ends/compound-angles.ts';
import { type EndSides, endLean } from '../../part/ends/end-lean.ts';
import { type CutCorner, isSquare, longAndShortPoints, type PartEnd } from '../../part/ends/end-planes.ts';
import type { Part } from '../../part/part.ts';
import type { ShowLength } from '../../units/fault.ts';
import type { LengthFormat } from '../../units/graduation.ts';
import { present } from '../../units/lists.ts';
import { capitalize, showAngle } from '../../units/number-format.ts';
import { quoted } from '../../units/quoted.ts';
import type { Sawing } from '../saw/advise-sawing.ts';
import { type EndSetUp, endSetUp, leanOfBlade } from '../saw/end-set-up.ts';
import { COMMON_SAWS, type EndCut, planEndCut, type TableSaw } from '../saw/saw-depth.ts';

/** A line about an end, with what it is about: "long point", "station 34, offset 2, on the reference face". */
export interface EndRow {
  readonly label: string;
  readonly words: string;
}

/** An end's angles, which way it leans, its points, and how the saw cuts through. */
export const describeEnd = (part: Part, cut: EndCut, sawing: EndSawing, words: LengthFormat): EndRow[] => [
  ...angleRows(cut.end, part, words.exact),
  ...describeEndCut(part, cut, sawing, words),
];

type EndSawing = Pick<Sawing, 'tableSaw' | 'edges'>;

/** How the miter gauge and the blade are set, and how the saw cuts through. */
export function describeEndCut(
  part: Part,
  cut: EndCut,
  { tableSaw, edges }: EndSawing,
  words: LengthFormat,
): EndRow[] {
  const isSet = !isSquare(cut.end) && cut.passes !== 'too steep';
  return [
    ...(isSet ? setupRows(endSetUp(cut.end, edges)) : []),
    ...depthRows(cut, part.stock?.thickness, tableSaw, words),
  ];
}

function angleRows(end: PartEnd, part: Part, show: ShowLength): EndRow[] {
  if (isSquare(end)) return [row('angles', 'square')];
  const { miter, bevel } = end.angles;
  const { long, short } = longAndShortPoints(end);
  return present(
    row(
      'angles',
      isByCurve(end) ? cutAngleWords(end, showAngle) : `miter ${showAngle(miter)}, bevel ${showAngle(bevel)}`,
    ),
    ...stanceRows(end, part),
    row('long at', sidesWords(endLean(end, part).longAt)),
    end.by === 'stance' && row('standing', standingWords(end, part)),
    row('long point', pointWords(long, show)),
    row('short point', pointWords(short, show)),
  );
}

/** As a leg stands on this end, for a cut that leans through the thickness. */
function stanceRows(end: PartEnd, part: Part): EndRow[] {
  const { rake, splay, lean, sight } = end.angles;
  if (splay === 0) return [];
  const stance = stanceWords({ rake, splay });
  const level = stanceWords(levelFaceStance(end.angles));
  const { edge, on = 'face' } = endLean(end, part).leansTowards;
  const from = Math.min(Math.abs(sight), Math.PI - Math.abs(sight));
  const edges = edge === undefined ? 'the edges' : quoted(edge);
  return present(
    row('as a leg', `${stance}, not twisted about its length`),
    level !== stance && row('or as a leg', `${level}, with the reference face level across`),
    row('lean', `${showAngle(lean)} along the sightline`),
    row('sightline', `${sightWords(from, edges)}, toward ${FACES[on]}`),
  );
}

/** "33.7° from square to the edges", "square to the edges", "along the edges": the direction in which the lean is largest. */
function sightWords(fromSquare: number, edges: string): string {
  if (showAngle(fromSquare) === showAngle(0)) return `square to ${edges}`;
  if (showAngle(fromSquare) === showAngle(Math.PI / 2)) return `along ${edges}`;
  return `${showAngle(fromSquare)} from square to ${edges}`;
}

function setupRows(setUp: EndSetUp): EndRow[] {
  const { edge, swing, tilt } = setUp;
  const against = edge === undefined ? 'the board’s edge along the reference line' : quoted(edge);
  const lean = leanOfBlade(setUp);
  const way = swing > 0 ? 'clockwise' : 'counterclockwise';
  return present(
    row('setup', `reference face up, ${against} against the miter gauge`),
    swing !== 0 && row('miter gauge', `${showAngle(Math.abs(swing))} ${way}, seen from above`),
    lean &&
      row('blade tilt', `${showAngle(Math.abs(tilt))} to the ${lean} as it rises, seen from the infeed side`),
    lean && row('other tilt', OTHER_TILT),
  );
}

const OTHER_TILT =
  'If your saw tilts the other way, put the other edge against the miter gauge. Keep the miter gauge at the same angle.';

const stanceWords = ({ rake, splay }: Pick<CompoundAngles, 'rake' | 'splay'>): string =>
  `rake ${showAngle(rake)}, splay ${showAngle(splay)}`;

function depthRows(
  { needs, reach, passes, end }: EndCut,
  thickness: number | undefined,
  saw: TableSaw,
  { exact, unit }: LengthFormat,
): EndRow[] {
  const { bevel } = end.angles;
  if (passes === 'too steep') return [row('cut', TOO_STEEP)];
  if (needs === undefined || thickness === undefined) return [];
  const tilt = bevel === 0 ? '' : ` at a blade tilt of ${showAngle(Math.abs(bevel))}`;
  const depth = row(
    'depth',
    `${exact(thickness)} thick${tilt} needs ${exact(needs)} of blade. ${capitalize(saw.name[unit])} gives ${exact(reach)}.`,
  );
  if (passes === 'one face') return [depth, row('cut', 'one pass')];
  const larger = COMMON_SAWS.find(
    (other) => other.depth > saw.depth && planEndCut(end, thickness, other).passes === 'one face',
  );
  const or = larger ? `, or use ${larger.name[unit]}` : '';
  return passes === 'two faces'
    ? [depth, row('cut', `Cut from two faces${or}.`), row('second cut', secondCutWords(end))]
    : [
        depth,
        row(
          'cut',
          `Two cuts leave wood between them. Saw the rest by hand, guided by both kerfs${or}. ${SLED}`,
        ),
      ];
}

const TOO_STEEP =
  'The angle is too steep for a table saw (blade 45°, miter gauge 60°). ' +
  'Saw it by hand along all four sides, or use a sled with a wedge of that angle.';

const SLED = 'Or cut the end on the band saw with a sled and a tilted table.';

/** Half a turn about the line across the part maps the plane of the cut onto itself, with the miter reversed. */
const secondCutWords = ({ angles: { miter, bevel } }: PartEnd): string =>
  present(
    'Turn the part end for end onto its other face, with the same edge against the miter gauge.',
    'Move it to the other side of the blade.',
    miter !== 0 && 'Rotate the miter gauge by the same angle the other way.',
    bevel !== 0 && 'Keep the blade tilt.',
    'Cut to meet the first cut.',
  ).join(' ');

const row = (label: string, words: string): EndRow => ({ label, words });

/** Whether the end of a part with a parallel edge is cut by its curve or level: nobody sets a saw for it. */
export const isByCurve = ({ by }: PartEnd): boolean => by === 'curve' || by === 'level';

/** "miter 6°, bevel 4°", "square", or "level". */
export function cutAngleWords(
  { by, angles: { miter, bevel } }: PartEnd,
  show: (radians: number) => string,
): string {
  if (by === 'curve') return 'square to the curve';
  if (by === 'level') return 'level';
  const angles = present(miter !== 0 && `miter ${show(miter)}`, bevel !== 0 && `bevel ${show(bevel)}`);
  return angles.join(', ') || 'square';
}

const FACES: Readonly<Record<CutCorner['on'], string>> = {
  face: 'the reference face',
  back: 'the other face',
  'both faces': 'both faces',
};

/** "long at the edge "outer" and the other face". */
export const longAtWords = (end: PartEnd, part: Part): string =>
  `long at ${sidesWords(endLean(end, part).longAt)}`;

/** The same, and how the part stands on that end where the job says so. */
export const endLeanWords = (end: PartEnd, part: Part): string =>
  end.by === 'stance' ? `${longAtWords(end, part)}; ${standingWords(end, part)}` : longAtWords(end, part);

const standingWords = (end: PartEnd, part: Part): string =>
  `on this end the part leans toward ${sidesWords(endLean(end, part).leansTowards)}`;

const sidesWords = ({ edge, on }: EndSides): string =>
  present(edge !== undefined && `the edge ${quoted(edge)}`, on && FACES[on]).join(' and ');

/** "long point at station 34, offset 2, on the reference face; short point at station 33 5/8, …". */
export function reachWords(end: PartEnd, show: ShowLength): string {
  const { long, short } = longAndShortPoints(end);
  return `long point at ${pointWords(long, show)}; short point at ${pointWords(short, show)}`;
}

const pointWords = ({ x, y, on }: CutCorner, show: ShowLength): string =>
  `station ${show(x)}, offset ${show(y)}, on ${FACES[on]}`;
