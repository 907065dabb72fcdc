// Sketches of the job file: ends, joints, pairs and allowances.
import { arc } from 'fairlath';
import {
  angle,
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

/** A slot of 20°, so that the angle is seen; a job has less. */
const LEAN = Math.tan((20 * Math.PI) / 180);

function endSigns() {
  return sketch(
    'end-signs',
    'Positive angles lean toward the left end as you move away from the reference line',
    58,
    [
      closed('cut', at(24, 14), at(108, 14), at(108 - 22 * LEAN, 36), at(24 - 22 * LEAN, 36)),
      grain(26, 16, 90, 34, 3),
      open('chord', at(24, 14), at(24, 42)),
      open('chord', at(108, 14), at(108, 42)),
      angle('mark', at(24, 14), 25, 90, 110),
      angle('mark', at(108, 14), 25, 90, 110),
      label('left: {miter: 20}', at(24, 45)),
      label('right: {miter: 20}', at(108, 45)),
      label('reference line', at(65, 9)),
      label('the reference face, seen from above', at(65, 53)),
      arrow('lead', at(70, 24), at(48, 24)),
      label('toward the left end', at(59, 26.5)),
    ],
  );
}

function longPoint() {
  return sketch('long-point', 'Edges run to the long point of a slanting end', 46, [
    closed('cut', at(10, 12), at(92, 12), at(84, 32), at(10, 32)),
    open('chord', at(92, 12), at(92, 38)),
    open('saw', at(84, 32), at(92, 32)),
    dot('mark', at(92, 12), 0.9),
    dot('mark', at(84, 32), 0.9),
    label('long point', at(96, 11), { anchor: 'start' }),
    label('short point', at(82, 35), { anchor: 'end' }),
    label('here the edge', at(96, 33), { anchor: 'start' }),
    label('of the job ends', at(96, 28.5), { anchor: 'start' }),
    label('reference line', at(50, 7)),
  ]);
}

function joints() {
  const [left, line] = [14, 14];
  return sketch('joints', 'The middle of a joint is at its station and offset on the reference face', 57, [
    box('cut', left, line, 118, 44),
    box('joint', 38, 26, 62, 34),
    dot('mark', at(50, 30), 0.8),
    measure('mark', at(left, 8), at(50, 8)),
    open('lead', at(50, 28), at(50, 6)),
    label('at', at(32, 3.5)),
    measure('mark', at(34, line), at(34, 30)),
    open('lead', at(32, 30), at(48, 30)),
    label('out', at(32, 20), { anchor: 'end' }),
    measure('rule', at(38, 38), at(62, 38)),
    label('length', at(50, 39.5)),
    measure('rule', at(66, 26), at(66, 34)),
    label('width', at(68, 28.8), { anchor: 'start' }),
    label('mortise', at(50, 22)),
    circle('joint', at(98, 30), 4),
    arrow('mark', at(93, 30), at(84, 30)),
    label('hole, toward: left', at(98, 37)),
    dot('mark', at(98, 30), 0.6),
    label('reference line', at(90, 9.5)),
    label('left end', at(14, 50)),
  ]);
}

function pair() {
  const leg = (x, side) => {
    const place = (dx, y) => at(x + side * dx, y);
    const curve =
      side > 0
        ? arc(place(8, 14), place(20, 50), { rise: 4 })
        : arc(place(20, 50), place(8, 14), { rise: 4 });
    return [
      open('cut', place(8, 14), place(0, 14), place(0, 50), place(20, 50)),
      curved('cut', curve),
      box('joint', x + (side > 0 ? 4 : -10), 40, x + (side > 0 ? 10 : -4), 45),
    ];
  };
  return sketch('pair', 'Identical parts come from one pattern, mirrored parts are left and right', 62, [
    leg(10, 1),
    leg(38, 1),
    label('pair: identical', at(36, 6)),
    leg(84, -1),
    leg(92, 1),
    label('pair: mirrored', at(90, 6)),
  ]);
}

function allowance() {
  const run = (style, y) => curved(style, arc(at(8, y), at(84, y), { rise: 9 }));
  return sketch('allowance', 'Saw to the saw line, which is dashed, and finish to the finished line', 52, [
    open('rule', at(8, 24), at(8, 12), at(84, 12), at(84, 24)),
    grain(10, 13, 82, 23, 2),
    run('cut', 24),
    run('saw', 28),
    label('finished line: solid', at(90, 20), { anchor: 'start' }),
    arrow('lead', at(89, 21), at(84.8, 23.6)),
    label('saw line: dashed', at(90, 33), { anchor: 'start' }),
    arrow('lead', at(89, 33), at(84.8, 28.8)),
    arrow('mark', at(46, 27), at(46, 33)),
    arrow('mark', at(46, 43), at(46, 37)),
    label('saw: 1/16', at(49, 41), { anchor: 'start' }),
    label('reference line', at(46, 7)),
  ]);
}

export const END_SKETCHES = [endSigns, longPoint, joints, pair, allowance];
