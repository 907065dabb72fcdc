// Sketches of the job file: the frame of a part and the steps of its edges.
import { arc, batten, bow, ellipse, figuresOf, line, makePart, parseJob, spline } from 'fairlath';
import { arrow, at, curved, dot, grain, label, measure, open, sketch } from './pen.js';

/** The bench leg of the first job, its offsets drawn three times as large as its stations. */
function frame() {
  const place = (station, offset) => at(12 + station * 3.1, 16 + offset * 9);
  const [start, end, nail] = [place(0, 1.625), place(34, 2), place(12, 3.25)];
  return sketch(
    'frame',
    'The part as it lies in front of you: stations to the right, offsets away from you',
    72,
    [
      curved('cut', batten(start, end, { nail })),
      open('cut', end, place(34, 0), place(0, 0), start),
      dot('mark', start, 0.9),
      dot('mark', end, 0.9),
      dot('mark', nail, 0.9),
      label('from: [0, 1 5/8]', at(4, 50), { anchor: 'start' }),
      arrow('lead', at(12, 48.5), at(start.x, start.y + 1.4)),
      label('through: [12, 3 1/4]', at(nail.x - 3, 57), { anchor: 'start' }),
      arrow('lead', at(nail.x, 55.5), at(nail.x, nail.y + 1.4)),
      label('batten: [34, 2]', at(126, 50), { anchor: 'end' }),
      arrow('lead', at(end.x, 48.5), at(end.x, end.y + 1.4)),
      label('edge “back”', at(84, 35)),
      label('edge “front”, on the reference line', at(84, 18)),
      measure('mark', at(12, 8), at(place(12, 0).x, 8)),
      open('lead', at(place(12, 0).x, 15), at(place(12, 0).x, 6)),
      label('station 12', at(30, 3.5)),
      measure('mark', place(12, 0), nail),
      label('offset 3 1/4', at(nail.x + 2, 31), { anchor: 'start' }),
      label('left end', at(12, 64)),
      label('right end', at(117, 64)),
      label('you stand here', at(65, 3.5), { anchor: 'start' }),
      arrow('lead', at(76, 7), at(76, 14)),
    ],
  );
}

/** What a step is given by: the words under it, its curve, and the places that the job names. */
function stepPanel(x, y, name, by, curve, points) {
  return [
    curved('cut', curve),
    dot('rule', curve.from, 0.8),
    dot('cut', curve.to, 0.8),
    points,
    label(name, at(x + 19, y - 6), { size: 4.4 }),
    label(by, at(x + 19, y - 11)),
  ];
}

function steps() {
  const panels = [
    ['line', 'its end', (a, b) => line(a, b), () => []],
    ['arc', 'rise, radius or through', (a, b) => arc(a, b, { rise: 9 }), rise],
    ['batten', 'through or apex', (a, b) => batten(a, b, { nail: at(a.x + 13, a.y + 8) }), nails],
    ['bow', 'rise', (a, b) => bow(a, b, 9), rise],
    ['ellipse', 'rise', (a, b) => ellipse(a, b, 9), rise],
    [
      'spline',
      'through',
      (a, b) => spline([a, at(a.x + 11, a.y + 9), at(a.x + 27, a.y + 2), b], 'natural', 'natural'),
      nails,
    ],
  ];
  return sketch('steps', 'The six kinds of step, each from where the last one ended', 78, [
    panels.map(([name, by, make, marks], i) => {
      const [x, y] = [6 + 42 * (i % 3), i < 3 ? 56 : 18];
      const curve = make(at(x, y), at(x + 38, y));
      return stepPanel(x, y, name, by, curve, marks(curve));
    }),
  ]);
}

function rise(curve) {
  const apex = figuresOf(curve).apex.at;
  return measure('mark', at(apex.x, curve.from.y), apex);
}

function nails({ kind, pins, from }) {
  const given =
    kind === 'spline' ? [at(from.x + 11, from.y + 9), at(from.x + 27, from.y + 2)] : pins.slice(1, -1);
  return given.map((place) => dot('mark', place, 0.9));
}

function riseSign() {
  const panel = (x, edge, rising, text) => {
    const [a, b] = [at(x, edge), at(x + 50, edge)];
    const curve = arc(a, b, { rise: rising });
    return [
      open('rule', at(x, 10), at(x + 50, 10)),
      open('cut', a, at(x, 10)),
      open('cut', b, at(x + 50, 10)),
      curved('cut', curve),
      open('chord', a, b),
      arrow('mark', at(x + 25, edge), figuresOf(curve).apex.at),
      label(text, at(x + 25, 44)),
      label('reference line', at(x + 25, 5)),
    ];
  };
  return sketch(
    'rise-sign',
    'A positive rise bulges away from the reference line, a negative rise toward it',
    50,
    [panel(8, 28, 9, 'rise: 1 1/4'), panel(72, 34, -9, 'rise: −1 1/4')],
  );
}

/** The rail with a shoulder of the job file, its offsets drawn twice as large. */
function shoulder() {
  const place = (station, offset) => at(14 + station * 5.5, 20 + offset * 14);
  const run = batten(place(1, 0), place(20, 0), { nail: place(11, 1) });
  return sketch('shoulder', 'A shoulder: the edge has two offsets at one station', 62, [
    open('cut', place(0, 0.75), place(1, 0.75), place(1, 0)),
    curved('cut', run),
    open('rule', place(0, 0.75), place(0, 2.2), place(20, 2.2), place(20, 0)),
    open('chord', place(0, 0), place(20, 0)),
    grain(place(2, 0).x, 40, place(19, 0).x, 49, 2),
    dot('mark', place(1, 0.75), 0.9),
    dot('mark', place(1, 0), 0.9),
    label('line: [1, 3/4]', at(30, 34.5), { anchor: 'start' }),
    arrow('lead', at(29, 35), at(place(1, 0).x + 1, place(0, 0.75).y + 0.4)),
    label('line: [1, 0]', at(30, 15), { anchor: 'start' }),
    arrow('lead', at(29, 16), at(place(1, 0).x + 1, place(1, 0).y - 0.8)),
    label('batten: [37, 0]', at(80, 37.5)),
    label('tenon', at(14, 56)),
    arrow('lead', at(16, 54.5), at(17, 44)),
    label('reference line', at(100, 15)),
  ]);
}

/** Millimeters on the paper; the outer edge is what the program makes of the job. */
const ARCH = `
part: Arch
units: mm
edges:
  inside:
    - from: [22, 14]
    - arc: [106, 14]
      rise: 26
  outside: {parallel: inside, by: 11}
ends: {left: square to curve, right: level}
`;

function parallelEdge() {
  const [inside, outside] = makePart(parseJob(ARCH).job).edges;
  const [from, to] = [at(64, 40), at(64, 51)];
  const ends = [
    [outside.pieces[0], inside.pieces[0]].map((piece) => placeOn(piece, 0)),
    [outside.pieces.at(-1), inside.pieces.at(-1)].map((piece) => placeOn(piece, 1)),
  ];
  return sketch(
    'parallel-edge',
    'An edge parallel to the other: by is the width of the wood everywhere',
    60,
    [
      [inside, outside].map(({ pieces }) => curved('cut', { path: pieces })),
      ends.map((places) => open('cut', ...places)),
      measure('mark', from, to),
      label('by', at(66.5, 44), { anchor: 'start' }),
      open('chord', at(4, 14), at(126, 14)),
      label('reference line', at(64, 9)),
      label('square to curve', at(2, 48), { anchor: 'start' }),
      arrow('lead', at(8, 46.5), at(13.5, 19)),
      label('level', at(112, 4.5)),
      arrow('lead', at(112, 8), at(112, 13.4)),
      label('inside', at(64, 34)),
      label('outside', at(64, 54)),
    ],
  );
}

/** Where an arc is at a share of its length. */
function placeOn({ centre, center = centre, radius, start, sweep }, share) {
  const turn = start + share * sweep;
  return at(center.x + radius * Math.cos(turn), center.y + radius * Math.sin(turn));
}

export const EDGE_SKETCHES = [frame, steps, riseSign, shoulder, parallelEdge];
