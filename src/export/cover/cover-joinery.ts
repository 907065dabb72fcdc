import { boundsOf } from '../../curves/geometry/bounds.ts';
import { distance, type Point, point } from '../../curves/geometry/point.ts';
import type { Lean, Toward } from '../../job/joints/joint-kind.ts';
import { type Joint, jointLean, jointOrigin, jointSize } from '../../job/joints/joint-kinds.ts';
import { isOnEdge } from '../../job/joints/joint-side.ts';
import { towardWords } from '../../job/joints/lean.ts';
import { type PartEnd, trueShape } from '../../part/ends/end-planes.ts';
import { edgeMarks } from '../../part/joints/edge-joint.ts';
import type { Part } from '../../part/part.ts';
import {
  cutAngleWords,
  endLeanWords,
  isByCurve,
  longAtWords,
  reachWords,
} from '../../shop/words/describe-ends.ts';
import { standingWords } from '../../shop/words/foot-out-words.ts';
import type { SafetyId } from '../../shop/words/safety.ts';
import { present } from '../../units/lists.ts';
import { showAngle } from '../../units/number-format.ts';
import type { Rule } from '../../units/rule.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { MM_PER_INCH, type Unit } from '../../units/unit.ts';
import {
  about,
  type Dimensions,
  lengthWithoutUnit,
  printedLength,
  sentence,
  unitWord,
} from '../drawing/dimensions.ts';
import { polyline, words } from '../drawing/drawing.ts';
import { CAP_HEIGHT, LINE_SPACING, textWidth } from '../drawing/text-width.ts';
import { centreOf } from '../labels/free-space.ts';
import { wordTable } from '../tables/paper-table.ts';
import { angleRow, jointSideWords, SIGN_CONVENTION, slantedEnds } from './joinery-words.ts';
import { BODY_MM, blankRow, keepWithNext, paragraph, paragraphs, type TextRow } from './text-columns.ts';

/** Nothing for a part whose ends are square; width in mm. */
export function endRows(part: Part, width: number): TextRow[] {
  const leaning = slantedEnds(part);
  if (leaning.length === 0) return [];
  const hasBevel = leaning.some(({ angles }) => angles.splay !== 0);
  const stands = part.stands !== undefined;
  const fold = present(hasBevel && FOLD_INSTRUCTIONS);
  // A leg that stands is drawn with its angles on the floor.
  if (stands) return [...paragraphs(standingEndWords(part, leaning), width), ...paragraphs(fold, width)];
  return [
    ...wordTable((part.ends ?? []).map(angleRow), width, ANGLE_HEAD),
    blankRow(1),
    ...(leaning.every(isByCurve) ? [] : paragraphs([SIGN_CONVENTION, SIGHTLINE_WORDS], width)),
    ...leaning.flatMap((end) => endParagraph(part, end, width)),
    ...paragraphs(fold, width),
  ];
}

/** Two ends level with the floor are cut alike, and each is long where the other is short. */
function standingEndWords(part: Part, ends: readonly PartEnd[]): string[] {
  const [end] = ends;
  if (!end) return [];
  const angles = cutAngleWords(end, (angle) => showAngle(Math.abs(angle)));
  const stands = standingWords(part, (mm) => printedLength(mm, part.rule));
  return [
    ...(stands === undefined ? [] : [stands]),
    `Both ends are level with the floor: ${angles}. The ${end.side} end is ${longAtWords(end, part)}, the other end opposite.`,
  ].map(sentence);
}

const ANGLE_HEAD = ['end', 'miter', 'bevel', 'rake', 'splay', 'lean', 'sightline'];

const SIGHTLINE_WORDS =
  'Lean is the whole angle off square. The sightline is the direction of the lean, seen along the part. 0° is away from the reference line, 90° is toward the reference face.';

/** What slanted ends add to the warnings of the cover. */
export const endSafety = (part: Part): SafetyId[] =>
  slantedEnds(part).length > 0 ? ['saw-offcut', 'pattern-angles'] : [];

export const jointSafety = ({ joints }: Dimensions): SafetyId[] =>
  joints.some((joint) => jointLean(joint)) ? ['drill-slope'] : [];

function endParagraph(part: Part, end: PartEnd, width: number): TextRow[] {
  const { rule, stock } = part;
  const thickness = stock?.thickness;
  const points = `${end.side === 'left' ? 'Left' : 'Right'} end: ${reachWords(end, (mm) => lengthWithoutUnit(mm, rule))}. ${sentence(endLeanWords(end, part))}.`;
  // Without a bevel the sawn end is a plain rectangle.
  if (thickness === undefined || end.angles.splay === 0) return paragraph(points, width);
  const lines = paragraph(`${points} The sawn end, seen square:`, width);
  return [...keepWithNext(lines), trueEndShapeRow(end, thickness, rule), blankRow(1)];
}

const FOLD_INSTRUCTIONS =
  'Cut around the fold tabs and lay the pattern on the finished edge. Fold each tab over its edge. Continue the cut line along the tab, to the corner of the other face. On a curved edge, let the tab follow the curve from that corner.';

/** Numbered as on the sheets; width in mm. */
export function jointRows(part: Part, { joints }: Dimensions, width: number, brief = false): TextRow[] {
  if (joints.length === 0) return [];
  const { rule } = part;
  const body = joints.map((joint, i) => jointRow(joint, i + 1, rule));
  const table = wordTable(body, width, ['', `station, ${unitWord(rule)}`, 'offset', '']);
  const ways = [...edgeJointWords(part, joints), ...(brief ? [] : wedgeWords(joints, rule))];
  return [...table, blankRow(1), ...paragraphs(ways, width)];
}

function jointRow(joint: Joint, number: number, rule: Rule): string[] {
  const show = (mm: number | undefined): string => (mm === undefined ? '' : lengthWithoutUnit(mm, rule));
  const { at, out } = jointOrigin(joint);
  const name = present(joint.kind.replace('-', ' '), joint.label, sideCell(joint)).join(', ');
  const size = jointSize(joint, show);
  return [`${number}`, show(at), show(out), size === '' ? name : `${name}: ${size}`];
}

const sideCell = (joint: Joint): string | undefined => {
  const side = jointSideWords(joint);
  return side && typesetMeasures(`${side}${isOnEdge(joint) ? ', offset from the reference face' : ''}`);
};

/** How to lay out what the pattern only marks at the edge. */
function edgeJointWords(part: Part, joints: readonly Joint[]): string[] {
  const show = (mm: number): string => lengthWithoutUnit(mm, part.rule);
  return joints.flatMap((joint, i) => {
    const marks = edgeMarks(joint, part);
    if (marks?.near === undefined || marks.far === undefined) return [];
    const { start, end, near, far } = marks;
    const along = `station ${show(start.x)} to ${show(end.x)}`;
    return [
      sentence(
        `joint ${i + 1} is ${jointSideWords(joint)}: ${along}, ${show(near)} to ${show(far)} from the reference face. Square its ends across the edge from the ticks of the pattern.`,
      ),
    ];
  });
}

/** A wedge is planed to its rise over this run, mm, read on a rule of the finest common marks. */
const WEDGE_RUNS: Readonly<Record<Unit, { readonly run: number; readonly rule: Rule }>> = {
  in: { run: 12 * MM_PER_INCH, rule: { unit: 'in', graduation: { numerator: 1, denominator: 64 } } },
  mm: { run: 300, rule: { unit: 'mm', graduation: { numerator: 1, denominator: 2 } } },
};

/** The work is raised on the side that the hole runs away from. */
const RAISED_SIDE: Readonly<Record<Toward, string>> = {
  right: 'the left end',
  left: 'the right end',
  out: 'the reference edge',
  in: 'the edge opposite the reference edge',
};

function raisedSide({ toward }: Lean, joint: Joint): string {
  if (!isOnEdge(joint) || toward === 'left' || toward === 'right') return RAISED_SIDE[toward];
  return toward === 'out' ? 'the reference face' : 'the other face';
}

function wedgeWords(joints: readonly Joint[], { unit }: Rule): string[] {
  const { run, rule } = WEDGE_RUNS[unit];
  const leaning = joints.flatMap((joint, i) => {
    const lean = jointLean(joint);
    return lean ? [{ lean, joint, number: i + 1 }] : [];
  });
  if (leaning.length === 0) return [];
  const slopes = leaning.map(({ lean, joint, number }) => {
    const rise = about(run * Math.tan(lean.by), rule);
    return `Hole ${number}, ${showAngle(lean.by)}: a rise of ${rise} over ${about(run, rule)}. The hole leans ${towardWords(lean, joint)}. Raise ${raisedSide(lean, joint)}.`;
  });
  return [`To drill a slanted hole, put a wedge with this slope under the work. ${slopes.join(' ')}`];
}

const MAX_WIDTH_MM = 40;
const MAX_HEIGHT_MM = 20;
const WHITE_MM = 1.5;
const LINE_MM = BODY_MM * LINE_SPACING;

/** The sawn end as it looks square on: the reference face below. */
function trueEndShapeRow(end: PartEnd, thickness: number, rule: Rule): TextRow {
  const corners = trueShape(end, thickness);
  const [a, b, c, d] = corners;
  const box = boundsOf(corners);
  const [wide, high] = [box.right - box.left, box.top - box.bottom];
  const k = Math.min(MAX_WIDTH_MM / wide, MAX_HEIGHT_MM / high);
  const side = (from: Point, to: Point): string => lengthWithoutUnit(distance(from, to), rule);
  const before = side(a, d);
  const indent = textWidth(before, BODY_MM) + WHITE_MM;
  return {
    height: k * high + 2 * LINE_MM + WHITE_MM,
    draw: (x, top) => {
      const place = (at: Point): Point =>
        point(x + indent + k * (at.x - box.left), top - LINE_MM - k * (box.top - at.y));
      const middle = (from: Point, to: Point): Point => centreOf(boundsOf([place(from), place(to)]));
      const half = (BODY_MM * CAP_HEIGHT) / 2;
      const [face, back, low, upper] = [middle(a, b), middle(d, c), middle(a, d), middle(b, c)];
      return [
        polyline('rule', corners.map(place), true),
        words(`other face ${side(d, c)}`, { x: back.x, y: back.y + WHITE_MM }, BODY_MM, 'middle'),
        words(`reference face ${side(a, b)}`, { x: face.x, y: face.y - LINE_MM * 0.8 }, BODY_MM, 'middle'),
        words(before, { x: low.x - WHITE_MM, y: low.y - half }, BODY_MM, 'end'),
        words(side(b, c), { x: upper.x + WHITE_MM, y: upper.y - half }, BODY_MM),
      ];
    },
  };
}
