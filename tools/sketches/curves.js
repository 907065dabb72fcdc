// The kinds of curve over each other, by the library: the same chord of 24 in and the same rise.
import { arc, batten, bow, ellipse, spline } from 'fairlath';
import { at, curved, dot, label, open, sketch } from './pen.js';

const CHORD_IN = 24;
const WIDTH = 200;
const LEFT = 14;
/** How much of the chord the enlarged part shows, and how many times as large as the whole it is. */
const [SHARE, TIMES] = [0.25, 4];

const KINDS = [
  { name: 'arc', style: 'cut', make: (a, b, apex) => arc(a, b, { through: apex }) },
  { name: 'bow', style: 'saw', make: (a, b, { y }) => bow(a, b, y - a.y) },
  { name: 'batten, one nail', style: 'mark', make: (a, b, apex) => batten(a, b, { nail: apex }) },
  {
    name: 'spline',
    style: 'parallel',
    make: (a, b, apex) => spline([a, apex, b], 'natural', 'natural'),
  },
];
const ELLIPSE = { name: 'ellipse', style: 'rule', make: (a, b, { y }) => ellipse(a, b, y - a.y) };

/** All kinds over a chord from `left` on, so long, with that rise. */
const drawn = (kinds, { x, y }, chord, rise) =>
  kinds.map(({ style, make }) =>
    curved(style, make(at(x, y), at(x + chord, y), at(x + chord / 2, y + rise))),
  );

const legend = (kinds, x, y) =>
  kinds.map(({ name, style }, i) => {
    const line = y - 5.5 * i;
    return [
      open(style, at(x, line + 1.1), at(x + 12, line + 1.1)),
      label(name, at(x + 15, line), { anchor: 'start' }),
    ];
  });

const chordLine = ({ x, y }, chord) => [
  open('chord', at(x, y), at(x + chord, y)),
  dot('cut', at(x, y), 0.7),
  dot('cut', at(x + chord, y), 0.7),
];

function shallow() {
  const chord = WIDTH - 2 * LEFT;
  const rise = (3 / CHORD_IN) * chord;
  const low = at(LEFT, 10);
  const large = at(LEFT, 50);
  const right = LEFT + SHARE * chord * TIMES;
  const clip = { type: 'clip', left: LEFT - 4, right, bottom: large.y - 6, top: large.y + 76 };
  return sketch(
    'curves-shallow',
    'Five kinds of curve with a chord of 24″ and a rise of 3″',
    140,
    [
      label('chord 24″, rise 3″', at(LEFT, 134), { anchor: 'start', size: 4.4 }),
      drawn([...KINDS, ELLIPSE], low, chord, rise),
      chordLine(low, chord),
      label('the whole curve', at(WIDTH / 2, 13)),
      { ...clip, items: [...drawn([...KINDS, ELLIPSE], large, chord * TIMES, rise * TIMES)] },
      label(`the left end, ${TIMES} times as large`, at(LEFT, 44.5), { anchor: 'start' }),
      legend([ELLIPSE, ...KINDS], 128, 72),
    ],
    WIDTH,
  );
}

function deep() {
  const chord = 130;
  const low = at(LEFT, 10);
  return sketch(
    'curves-deep',
    'Five kinds of curve with a chord of 24″ and a rise of 10″',
    82,
    [
      label('chord 24″, rise 10″', at(LEFT, 75), { anchor: 'start', size: 4.4 }),
      drawn([...KINDS, ELLIPSE], low, chord, (10 / CHORD_IN) * chord),
      chordLine(low, chord),
      legend([ELLIPSE, ...KINDS], 148, 50),
    ],
    WIDTH,
  );
}

/** Four points of an S: the batten and the spline pass all of them, no single arc or bow does. */
function throughPoints() {
  const chord = WIDTH - 2 * LEFT;
  const points = [
    [0, 8],
    [0.22, 34],
    [0.55, 20],
    [0.8, 14],
    [1, 30],
  ].map(([share, y]) => at(LEFT + share * chord, y));
  const [first, last] = [points[0], points.at(-1)];
  return sketch(
    'curves-points',
    'A batten and a spline through the same five points',
    50,
    [
      curved('mark', batten(first, last, { through: points.slice(1, -1) })),
      curved('parallel', spline(points, 'natural', 'natural')),
      points.map((point) => dot('cut', point, 0.9)),
      legend([{ ...KINDS[2], name: 'batten, three nails' }, KINDS[3]], 128, 44),
    ],
    WIDTH,
  );
}

export const CURVE_SKETCHES = [shallow, deep, throughPoints];
