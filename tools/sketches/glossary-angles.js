// Sketches of the glossary: the angles of a leg and of a saw, and plies on a form.
import {
  angle,
  arcOver,
  arrow,
  at,
  box,
  circle,
  closed,
  dot,
  grain,
  label,
  measure,
  open,
  sketch,
  unit,
} from './pen.js';

/** A leg that leans, standing on the floor, with the plumb line from its top. */
function elevation(x, lean, name, seen) {
  const top = at(x + 14, 52);
  const foot = at(x + 14 + 44 * Math.tan((lean * Math.PI) / 180), 8);
  const half = 3;
  return [
    open('rule', at(x - 4, 8), at(x + 50, 8)),
    open('rule', at(x - 4, 52), at(x + 50, 52)),
    closed('cut', at(top.x - half, 52), at(top.x + half, 52), at(foot.x + half, 8), at(foot.x - half, 8)),
    open('chord', top, at(top.x, 8)),
    angle('mark', top, 30, -90, -90 + lean),
    label(name, at(top.x + 22, 26), { anchor: 'start', size: 4.4 }),
    label(seen, at(x + 23, 57)),
    label('floor', at(x + 44, 4)),
  ];
}

const rakeSplay = () =>
  sketch('rake-splay', 'Rake is the lean seen from the front, splay the lean seen from the side', 64, [
    elevation(10, 14, 'rake', 'seen square to the reference face'),
    elevation(74, 10, 'splay', 'seen square to the edge'),
  ]);

/** The end of a board cut at an angle: seen on its face, then on its edge. */
function miterBevel() {
  const slant = (x, bottom, top, degrees) => x - (top - bottom) * Math.tan((degrees * Math.PI) / 180);
  const face = slant(48, 14, 34, 20);
  const edge = slant(112, 18, 30, 20);
  return sketch(
    'miter-bevel',
    'A miter is an angle across the face, a bevel an angle through the thickness',
    56,
    [
      closed('cut', at(8, 14), at(48, 14), at(face, 34), at(8, 34)),
      grain(10, 15, 40, 33, 3),
      open('chord', at(48, 14), at(48, 38)),
      angle('mark', at(48, 14), 22, 90, 110),
      label('miter', at(45, 40.5), { size: 4.4 }),
      label('the face', at(25, 8.5)),
      label('miter gauge turned', at(30, 48)),
      closed('cut', at(74, 18), at(112, 18), at(edge, 30), at(74, 30)),
      open('chord', at(112, 18), at(112, 38)),
      angle('mark', at(112, 18), 18, 90, 110),
      label('bevel', at(110, 40.5), { size: 4.4 }),
      label('the edge', at(90, 12.5)),
      label('blade tilted', at(94, 48)),
    ],
  );
}

/** Rake 14°, splay 10°: tan σ = tan β / tan α, as seen from above. */
function sightline() {
  const [rake, splay] = [14, 10].map((degrees) => 160 * Math.tan((degrees * Math.PI) / 180));
  const top = at(30, 14);
  const foot = at(top.x + rake, top.y + splay);
  const along = (Math.atan2(splay, rake) * 180) / Math.PI;
  const side = unit(along);
  const away = (d) => at(top.x + d * side.x, top.y + d * side.y);
  return sketch('sightline', 'The sightline is the direction in which the leg leans, seen from above', 62, [
    box('rule', top.x - 4, top.y - 4, top.x + 4, top.y + 4),
    dot('cut', top, 0.7),
    circle('cut', foot, 2.4),
    open('chord', away(-12), away(66)),
    measure('mark', top, at(foot.x, top.y)),
    measure('mark', at(foot.x, top.y), foot),
    angle('mark', top, 22, 0, along),
    label('how far the rake moves the foot', at(38, 8.5), { anchor: 'start' }),
    label('how far the splay moves it', at(foot.x + 2, 26), { anchor: 'start' }),
    label('foot', at(foot.x + 4, foot.y - 1), { anchor: 'start' }),
    label('top', at(top.x - 6, top.y - 1), { anchor: 'end' }),
    label('sightline', at(66, 52), { anchor: 'end', size: 4.4 }),
    label('35.3° for a rake of 14° and a splay of 10°', at(65, 57.5)),
  ]);
}

/** Four plies on a form and, dashed, where the finished curve lies once they spring back. */
function plyForm() {
  const [left, right] = [at(16, 14), at(114, 14)];
  const plies = Array.from({ length: 5 }, (_, i) =>
    arcOver(i === 0 || i === 4 ? 'cut' : 'rule', at(16, 14 + 2 * i), at(114, 14 + 2 * i), 18),
  );
  return sketch('ply-form', 'Plies bent over a form, and the curve that is left when they spring back', 56, [
    closed('rule', left, at(16, 6), at(114, 6), right),
    plies,
    arcOver('saw', at(16, 14), at(114, 14), 15),
    label('form', at(65, 16), { size: 4.4 }),
    arrow('lead', at(100, 40), at(88, 33.6)),
    label('plies', at(101, 40), { anchor: 'start' }),
    arrow('lead', at(24, 40), at(33, 25)),
    label('after springback', at(24, 42)),
    open('cut', at(16, 14), at(16, 22)),
    open('cut', at(114, 14), at(114, 22)),
  ]);
}

export const ANGLE_SKETCHES = [rakeSplay, miterBevel, sightline, plyForm];
