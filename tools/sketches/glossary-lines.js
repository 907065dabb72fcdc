// Sketches of the glossary: how a curve is measured, and how a reading is told.
import { batten, figuresOf } from 'fairlath';
import {
  arcOver,
  arrow,
  at,
  box,
  closed,
  curved,
  dot,
  grain,
  label,
  measure,
  open,
  sketch,
  wavy,
} from './pen.js';

function stationAndOffset() {
  const [left, right] = [at(12, 26), at(118, 28)];
  const nail = at(56, 42);
  const edge = batten(left, right, { through: [nail] });
  return sketch('station-offset', 'Station along the reference line, offset square to it', 58, [
    curved('cut', edge),
    open('cut', right, at(118, 14), at(12, 14), left),
    grain(14, 16, 116, 26, 2),
    measure('mark', at(12, 8), at(56, 8)),
    open('lead', at(12, 13), at(12, 6)),
    open('lead', at(56, 13), at(56, 6)),
    label('station', at(34, 3.5)),
    measure('mark', at(56, 14), nail),
    label('offset', at(58, 30), { anchor: 'start' }),
    dot('mark', nail, 0.8),
    label('curve', at(100, 41)),
    label('reference line', at(90, 9.5)),
    label('left end', at(12, 48)),
    label('right end', at(118, 48)),
    arrow('lead', at(12, 46.5), at(12, 28)),
    arrow('lead', at(118, 46.5), at(118, 30)),
  ]);
}

function chordRiseApex() {
  const [left, right] = [at(12, 14), at(118, 14)];
  const nail = at(38, 34);
  const curve = batten(left, right, { through: [nail] });
  const apex = figuresOf(curve).apex.at;
  return sketch('chord-rise-apex', 'The chord of a curve, its nail, its apex and the rise there', 52, [
    curved('cut', curve),
    open('chord', left, right),
    dot('cut', left, 0.8),
    dot('cut', right, 0.8),
    dot('cut', nail, 0.8),
    label('nail', at(35, 37), { anchor: 'end' }),
    dot('mark', apex, 0.8),
    measure('mark', at(apex.x, 14), apex),
    label('rise', at(apex.x + 2, 24), { anchor: 'start' }),
    label('apex: the highest place', at(apex.x, apex.y + 4)),
    label('chord: the straight line from end to end', at(65, 8.5)),
  ]);
}

function proudShy() {
  const panel = (x, name, what, surface, tip) => [
    open('rule', at(x, 12), at(x + 52, 12)),
    arcOver('mark', at(x, 26), at(x + 52, 26), 5),
    wavy('cut', ...surface.map(([dx, y]) => at(x + dx, y))),
    open('cut', at(x, 26), at(x, 12), at(x + 52, 12), at(x + 52, 26)),
    grain(x + 2, 13, x + 50, 25, 2),
    arrow('lead', at(x + 26, 41), at(x + 26, tip)),
    label(name, at(x + 26, 47.5), { size: 4.4 }),
    label(what, at(x + 26, 42.5)),
  ];
  const proud = [
    [0, 26],
    [10, 29],
    [18, 32.4],
    [26, 35],
    [34, 32.4],
    [42, 29],
    [52, 26],
  ];
  const shy = [
    [0, 26],
    [10, 28.9],
    [18, 29],
    [26, 27.4],
    [34, 29],
    [42, 28.9],
    [52, 26],
  ];
  return sketch('proud-shy', 'Proud is too much wood, shy is too little', 53, [
    panel(8, 'proud', 'too much wood', proud, 36),
    panel(70, 'shy', 'too little wood', shy, 32),
    label('green: the finished line. black: the wood', at(65, 5)),
  ]);
}

/** Steps of 1/32 in from 3 in on, as on the rule, drawn eight times as large. */
function fullScant() {
  const STEP = 6.35;
  const panel = (x, name, shift, what) => {
    const mark = x + 4 * STEP;
    const ticks = Array.from({ length: 9 }, (_, i) =>
      open(
        i % 2 === 0 ? 'cut' : 'rule',
        at(x + i * STEP, 22),
        at(x + i * STEP, 22 - [9, 3, 5, 3, 7, 3, 5, 3, 9][i]),
      ),
    );
    return [
      box('rule', x - 3, 8, x + 8 * STEP + 3, 22),
      ticks,
      label('3', at(x + 2, 10), { size: 4.4, anchor: 'start' }),
      label('3 ¼', at(x + 8 * STEP - 1.5, 10), { size: 4.4, anchor: 'end' }),
      label('3 ⅛', at(mark, 10.2)),
      arrow('mark', at(mark + shift, 36), at(mark + shift, 22.3)),
      label(name, at(mark, 43), { size: 4.4 }),
      label(what, at(mark, 38)),
    ];
  };
  return sketch('full-scant', 'A length just over the mark is full, just under the mark is scant', 50, [
    panel(9, '3 ⅛ full', 1.6, 'just over the mark'),
    panel(73, '3 ⅛ scant', -1.6, 'just under the mark'),
    label('a rule with marks every 1⁄32″, enlarged', at(65, 3)),
  ]);
}

/** Two parts side by side on a board: what the saw takes lies outside both finished lines. */
function kerf() {
  const line = (style, y) => arcOver(style, at(10, y), at(92, y), 7);
  return sketch('kerf', 'The kerf is the width of wood that the saw turns into dust', 52, [
    closed('rule', at(10, 6), at(92, 6), at(92, 47), at(10, 47)),
    line('cut', 20),
    line('saw', 22.5),
    line('rule', 26),
    label('the part', at(51, 14)),
    label('offcut, or the next part', at(51, 38)),
    label('kerf', at(97, 23.6), { anchor: 'start' }),
    open('lead', at(92, 22.5), at(96, 24.2)),
    open('lead', at(92, 26), at(96, 24.6)),
    label('finished line', at(97, 16.5), { anchor: 'start' }),
    open('lead', at(92, 20), at(96, 17.5)),
    label('saw line', at(97, 31), { anchor: 'start' }),
    open('lead', at(91, 22.6), at(96, 31.5)),
  ]);
}

export const LINE_SKETCHES = [stationAndOffset, chordRiseApex, proudShy, fullScant, kerf];
