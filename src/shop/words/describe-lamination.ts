import type { Part } from '../../part/part.ts';
import { floorToGraduation, type LengthFormat, showSizes } from '../../units/graduation.ts';
import { present } from '../../units/lists.ts';
import {
  showAngle,
  showCount,
  showFine,
  showMagnitude,
  showPercent,
  trimmed,
} from '../../units/number-format.ts';
import type { Rule } from '../../units/rule.ts';
import { KG_PER_LB, MM_PER_INCH } from '../../units/unit.ts';
import type { PlyPlan } from '../plies/plan-plies.ts';
import type { BoardsOfPlies } from '../plies/resawing.ts';
import { cutAngleWords } from './describe-ends.ts';
import { describePlies } from './describe-plies.ts';
import { showVolume } from './describe-stock.ts';
import { type SafetyId, safetyNote } from './safety.ts';

/** How thick the plies are, and whether they bend safely. */
export function describePlySet({ form, lamination, species }: PlyPlan, words: LengthFormat): string[] {
  const { size, chart } = describePlies(form, lamination, species, words);
  return [size, chart];
}

/** A head and a row for each ply, from the form outward. */
export const plyRows = ({ lengths }: PlyPlan, { rule }: Part, { rounded }: LengthFormat): string[][] => [
  ['ply', 'length'],
  ...lengths.map((length, i) => [
    i === 0 ? '1, on the form' : String(i + 1),
    // A ply may be too long, never too short.
    rounded(-floorToGraduation(-length, rule)),
  ]),
];

/** In one line: "2510 mm on the form, 7.71 mm more for each further ply". */
export function plyRange({ lengths: [first = 0, second = 0] }: PlyPlan, { rule }: Part, words: LengthFormat) {
  const step = showFine(Math.abs(second - first), words.unit);
  return `${words.rounded(-floorToGraduation(-first, rule))} on the form, ${step} ${second > first ? 'more' : 'less'} for each further ply`;
}

/** How the plies come off a board, and what of it is lost. */
export function describeResawing({ rule, quantity }: Part, plan: PlyPlan, words: LengthFormat): string[] {
  const { rounded, unit } = words;
  const { lamination, resawing } = plan;
  const { plies, length, width, kerf, planing, sawn, pitch, loss, lumber, rough, boards } = resawing;
  const fine = (mm: number): string => showFine(mm, unit);
  const forAll = quantity > 1 ? ` for ${showCount(quantity, 'part')}` : '';
  return present(
    width === undefined
      ? 'For the width of the plies, write "thickness: 1 3/4" under "stock"'
      : `use a board ${rounded(width)} thick: that is the width of the plies, with something to clean off`,
    lumber && `a rough ${lumber.lumber.name} board is thick enough`,
    `saw ${showCount(plies, 'ply', 'plies')} off its edge${forAll}, each ${fine(sawn)} thick and ${rounded(length)} long. Plane both faces, down to ${fine(lamination.plyThickness)}`,
    `each ply takes ${fine(pitch)} of the width of the board: ${fine(kerf)} of kerf, ${fine(planing)} of planing. That loses ${showPercent(loss)} of the board`,
    `in all: ${rounded(plies * pitch)} of board width${rough ? `, ${showVolume(rough, rule, 1)}` : ''}. Add a ply or two for mistakes`,
    boards && boardWords(boards, plies, rule),
    'plane the edge of the board before each cut. Number the plies as they come off, and glue them in that order',
  );
}

function boardWords(
  { length, width, across, along, count }: BoardsOfPlies,
  plies: number,
  rule: Rule,
): string {
  const size = `your stock, ${showSizes([length, width], rule)}`;
  if (count === undefined) return `${size}, is too ${along === 0 ? 'short' : 'narrow'} for a ply`;
  const ends = along > 1 ? `, in ${along} lengths` : '';
  return `${size}, gives ${across * along} plies${ends}: ${showCount(count, 'board')} for ${plies} plies`;
}

/** Stock that gives no ply is a mistake that stops the work. */
export function stockWarnings({ stock, rule }: Part, { resawing: { boards, length, pitch } }: PlyPlan) {
  if (!boards || boards.count !== undefined || !stock) return [];
  const [side, needs, has] =
    boards.along === 0
      ? (['length', length, boards.length] as const)
      : (['width', pitch, boards.width] as const);
  const show = (mm: number): string => showSizes([mm], rule);
  const message = `a ply needs a ${side} of ${show(needs)}, but the stock has ${show(has)}. Use larger stock.`;
  return [{ code: `stock.ply-${side}`, message }];
}

/** Common practice, and said to be so. */
export function describeGluing({ clamps, lamination }: PlyPlan, { rounded, unit }: LengthFormat): string[] {
  const { every, count, glueArea, glue } = clamps;
  return present(
    `${count} clamps over a caul or a strap, one every ${rounded(every)}, from the middle to the ends`,
    glueArea !== undefined &&
      glue !== undefined &&
      `${lamination.plies - 1} glue joints with ${areaWords(glueArea, unit)} take about ${glueWords(glue, unit)} of glue for each part`,
    'use a rigid glue, such as a urea or epoxy glue. White glue lets the plies creep',
    'clamp all plies dry first. The glue must stay open for as long as that takes',
    'these figures are common practice, without a published source. Follow the directions of the glue',
  );
}

const MM2_PER_M2 = 1e6;
const areaWords = (mm2: number, unit: LengthFormat['unit']): string =>
  unit === 'in'
    ? `${showMagnitude(mm2 / (12 * MM_PER_INCH) ** 2, 100)} square feet`
    : `${trimmed(mm2 / MM2_PER_M2, 2)} m²`;

const OUNCES_PER_LB = 16;
const glueWords = (kg: number, unit: LengthFormat['unit']): string =>
  unit === 'in' ? `${showMagnitude((kg / KG_PER_LB) * OUNCES_PER_LB, 10)} oz` : `${(kg * 1000).toFixed(0)} g`;

/** Where the form is, and how much sharper it is. */
export function describeForm({ form, lamination, species, stack }: PlyPlan, words: LengthFormat): string[] {
  const { sides, springback } = describePlies(form, lamination, species, words);
  return [`${sides} It touches the edge "${stack.edge.name}".`, springback];
}

/** From the form to the finished part. */
export function laminationSteps(part: Part, { lamination }: PlyPlan, words: LengthFormat): string[] {
  const { joints, ends, stock } = part;
  const thickness =
    stock?.thickness === undefined ? 'to its thickness' : `to ${words.rounded(stock.thickness)}`;
  return present(
    'Build the form from its own pattern. Wax it.',
    `Saw the plies, plane them to ${showFine(lamination.plyThickness, words.unit)}, number them.`,
    'Clamp them dry, from the middle to the ends.',
    'Bend a trial piece. Correct the form.',
    'Glue and clamp. Keep one edge of the plies flush.',
    'Leave the part on the form until the glue is hard.',
    `Scrape off the glue. Plane both faces, ${thickness}.`,
    `Mark the ends from the pattern${ends ? ` (${endWords(ends)})` : ''}. Saw by hand.`,
    joints.length > 0 && 'Lay out and cut the joints last.',
  );
}

function endWords(ends: NonNullable<Part['ends']>): string {
  const [left, right] = ends.map((end) => cutAngleWords(end, showAngle));
  return left === right ? `both ${left}` : `left: ${left}, right: ${right}`;
}

const LAMINATION_SAFETY: readonly SafetyId[] = [
  'ply-saw',
  'ply-plane',
  'form-force',
  'saw.manual',
  'saw.fingers',
  'saw.guide',
  'saw.wear',
  'saw.stop',
  'form-glue',
  'stock.measure',
];

export const laminationCautions = (unit: LengthFormat['unit']) =>
  LAMINATION_SAFETY.map((id) => safetyNote(id, unit));
