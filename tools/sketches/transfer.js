// Sketches of the pattern on the wood, and of what goes wrong on the way.
import { arc } from 'fairlath';
import {
  arcOver,
  arrow,
  at,
  box,
  circle,
  closed,
  curved,
  dot,
  grain,
  label,
  measure,
  open,
  sketch,
} from './pen.js';

/** A board seen from its edge, the paper on it, and the tool that marks it. */
const board = (x) => [box('rule', x, 8, x + 34, 18), grain(x + 1, 8, x + 33, 18, 2)];

function prickTraceCarbon() {
  return sketch(
    'marking',
    'Prick through the paper, trace along its cut edge, or press through carbon paper',
    58,
    [
      board(6),
      open('cut', at(6, 19), at(40, 19)),
      closed('mark', at(22, 36), at(24, 36), at(23, 16)),
      label('prick', at(23, 50), { size: 4.4 }),
      label('through the line', at(23, 45)),
      label('paper', at(8, 21), { anchor: 'start' }),
      board(48),
      open('cut', at(48, 19), at(66, 19)),
      closed('mark', at(67, 18.3), at(70, 37), at(73, 36.4)),
      label('trace', at(65, 50), { size: 4.4 }),
      label('along the cut edge', at(65, 45)),
      board(90),
      open('mark', at(90, 18.8), at(124, 18.8)),
      open('cut', at(90, 20), at(124, 20)),
      closed('mark', at(107, 20.4), at(110, 38), at(113, 37.4)),
      label('carbon paper', at(107, 50), { size: 4.4 }),
      label('under the pattern', at(107, 45)),
      label('the board, seen from its edge', at(65, 3)),
    ],
  );
}

/** Pricks stand closer where the curve is tighter, and a batten joins them. */
function pricks() {
  const edge = arc(at(12, 16), at(118, 16), { rise: 22 });
  const { centre, center = centre, radius } = edge.exact[0];
  const places = [-46, -36, -26, -14, 0, 14, 26, 36, 46].map((degrees) => {
    const turn = ((90 - degrees * 0.99) * Math.PI) / 180;
    return at(center.x + radius * Math.cos(turn), center.y + radius * Math.sin(turn));
  });
  return sketch('pricks', 'Pricks along the line, joined with a batten or by eye', 52, [
    curved('saw', edge),
    places.map((place) => dot('mark', place, 0.7)),
    open('rule', at(12, 16), at(12, 8), at(118, 8), at(118, 16)),
    label('one prick every 1″ (25 mm), closer where it bends more', at(65, 45)),
    label('join the pricks with a batten', at(65, 22)),
  ]);
}

/** The paper lies on the reference edge and on the station line of an end. */
function placing() {
  return sketch('placing', 'Place the pattern by its reference line and by one end', 56, [
    box('rule', 6, 10, 124, 42),
    grain(10, 32, 120, 42, 2),
    arcOver('cut', at(16, 22), at(110, 22), 8),
    open('cut', at(16, 22), at(16, 10), at(110, 10), at(110, 22)),
    open('mark', at(2, 10), at(128, 10)),
    label('reference line on the planed edge', at(63, 4.5)),
    arrow('lead', at(63, 46), at(63, 30.4)),
    label('pattern', at(63, 48)),
    label('board', at(118, 36), { anchor: 'end' }),
  ]);
}

function diagonals() {
  const [left, right, low, high] = [14, 76, 12, 40];
  return sketch('diagonals', 'Two diagonals of one length: the pattern is square', 54, [
    box('rule', left, low, right, high),
    measure('mark', at(left, low), at(right, high)),
    measure('mark', at(left, high), at(right, low)),
    [at(left, low), at(right, low), at(left, high), at(right, high)].map((place) => dot('cut', place, 0.8)),
    label('same length: square', at(45, 46)),
    closed('rule', at(92, low), at(118, low), at(124, high), at(98, high)),
    measure('mark', at(92, low), at(124, high)),
    measure('mark', at(98, high), at(118, low)),
    label('one is longer:', at(108, 50)),
    label('a seam slipped', at(108, 45.5)),
    ['S', 'R', 'Q', 'P'].map((name, i) =>
      label(name, at([10, 80, 80, 10][i], [low - 1, low - 1, high - 1, high - 1][i])),
    ),
    label('the crosses P, Q, R and S of the cover', at(45, 5)),
  ]);
}

/** Register marks: whole where the sheets meet, broken where one slipped. */
function seam() {
  const sheets = (x, slip, text) => [
    open('rule', at(x, 10), at(x + 26, 10), at(x + 26, 42), at(x, 42)),
    open('trim', at(x + 26, 10 + slip), at(x + 52, 10 + slip)),
    open('rule', at(x + 26, 42 + slip), at(x + 52, 42 + slip)),
    [18, 34].map((y) => [half(at(x + 26, y), -1), half(at(x + 26, y + slip), 1)]),
    arcOver('cut', at(x + 2, 22), at(x + 26, 26), 1),
    arcOver('cut', at(x + 26, 26 + slip), at(x + 50, 24 + slip), 1),
    label(text, at(x + 26, 48)),
  ];
  const half = (place, side) => [
    arcHalf(place, side),
    open('register', place, at(place.x + 4 * side, place.y)),
  ];
  return sketch('seam', 'Left: the register marks are whole. Right: one sheet slipped', 54, [
    sheets(8, 0, 'marks whole: tape it'),
    sheets(70, 2.4, 'marks broken: move the sheet'),
    label('1A', at(12, 12)),
    label('1B', at(56, 12)),
  ]);
}

/** Half of a register mark, as on the sheet at one side of a seam. */
function arcHalf({ x, y }, side) {
  const whole = circle('register', at(x, y), 2.6);
  const quarters = side > 0 ? [whole.path[3], whole.path[0]] : [whole.path[1], whole.path[2]];
  return { ...whole, path: quarters, closed: false };
}

/** A bar of 4 in under a rule, when the print was made at 91.3 %. */
function scaleBar() {
  const [x, length] = [14, 101.6];
  const ticks = Array.from({ length: 65 }, (_, i) => {
    const tall = i % 16 === 0 ? 6 : i % 4 === 0 ? 4 : 2;
    return open('rule', at(x + (i * length) / 64, 22), at(x + (i * length) / 64, 22 + tall));
  });
  const bar = (y, share, text) => [
    open('mark', at(x, y), at(x + length * share, y)),
    open('mark', at(x, y - 2), at(x, y + 2)),
    open('mark', at(x + length * share, y - 2), at(x + length * share, y + 2)),
    label(text, at(x + length / 2, y - 4.5)),
  ];
  return sketch('scale-bar', 'A 4″ bar that is right, and one that was printed at 91.3%', 50, [
    box('rule', x - 4, 22, x + length + 8, 36),
    ticks,
    [0, 1, 2, 3, 4].map((inch) => label(String(inch), at(x + (inch * length) / 4, 30))),
    bar(40, 1, ''),
    label('4″: right', at(x + length / 2, 42.5)),
    bar(16, 0.913, '3 21⁄32″: the print was scaled to 91.3%'),
  ]);
}

export const TRANSFER_SKETCHES = [prickTraceCarbon, pricks, placing, diagonals, seam, scaleBar];
