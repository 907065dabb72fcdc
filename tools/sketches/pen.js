// What the sketches of the docs are drawn with: items of a drawing, mm from its lower left corner, y up.
import { arc, spline } from 'fairlath';

const WIDTH = 130;
const TEXT = 3.6;
const HEAD = { length: 2.4, half: 0.8 };
/** Four cubics draw a circle within 0.03 % of its radius: the usual handle for a quarter. */
const QUARTER = (4 / 3) * Math.tan(Math.PI / 8);

export const at = (x, y) => ({ x, y });
const plus = (a, b, factor = 1) => at(a.x + factor * b.x, a.y + factor * b.y);
export const unit = (degrees) => at(Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180));

const stroke = (style, path, rest) => ({ type: 'stroke', style, path, ...rest });
const lines = (points) => points.slice(1).map((to, i) => ({ type: 'line', from: points[i], to }));

export const open = (style, ...points) => stroke(style, lines(points));
export const closed = (style, ...points) => stroke(style, lines([...points, points[0]]), { closed: true });
export const box = (style, left, bottom, right, top) =>
  closed(style, at(left, bottom), at(right, bottom), at(right, top), at(left, top));

/** Curves of the library, one after the other, with straight lines to what follows. */
export const curved = (style, ...curves) =>
  stroke(
    style,
    curves.flatMap(({ path }) => path),
  );

/** A smooth line through points, for a surface that is no curve of a part. */
export const wavy = (style, ...points) => curved(style, spline(points, 'natural', 'natural'));

export const label = (text, place, { anchor = 'middle', size = TEXT, turn = 0 } = {}) => ({
  type: 'words',
  text,
  at: place,
  size,
  anchor,
  turn: (turn * Math.PI) / 180,
});

export function circle(style, { x, y }, radius, filled = false) {
  const k = radius * QUARTER;
  const corner = (a, b, c, d) => ({
    type: 'cubic',
    controls: [a, b, c, d].map(([dx, dy]) => at(x + dx, y + dy)),
  });
  const r = radius;
  const path = [
    corner([r, 0], [r, k], [k, r], [0, r]),
    corner([0, r], [-k, r], [-r, k], [-r, 0]),
    corner([-r, 0], [-r, -k], [-k, -r], [0, -r]),
    corner([0, -r], [k, -r], [r, -k], [r, 0]),
  ];
  return stroke(style, path, { closed: true, filled });
}

export const dot = (style, place, radius = 1) => circle(style, place, radius, true);

function head(style, tip, direction) {
  const back = plus(tip, direction, -HEAD.length);
  const side = at(-direction.y, direction.x);
  const corners = [tip, plus(back, side, HEAD.half), plus(back, side, -HEAD.half)];
  return stroke(style, lines([...corners, tip]), { closed: true, filled: true });
}

const direction = (from, to) => {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  return at((to.x - from.x) / length, (to.y - from.y) / length);
};

export const arrow = (style, from, to) => [open(style, from, to), head(style, to, direction(from, to))];

/** A measure from one place to another, with both its heads. */
export const measure = (style, from, to) => [
  ...arrow(style, from, to),
  head(style, from, direction(to, from)),
];

/** Part of a circle from one direction to another, degrees, with a head where it ends; less than a quarter turn. */
export function angle(style, centre, radius, start, end) {
  const [from, to] = [unit(start), unit(end)].map((way) => plus(centre, way, radius));
  // The usual handle of a cubic for an arc of θ: 4/3·tan(θ/4) of the radius.
  const reach = (4 / 3) * Math.tan(((end - start) * Math.PI) / 720) * radius;
  const [first, last] = [plus(from, unit(start + 90), reach), plus(to, unit(end + 90), -reach)];
  const arc = stroke(style, [{ type: 'cubic', controls: [from, first, last, to] }]);
  const way = unit(end + (end > start ? 90 : -90));
  return Math.hypot(to.x - from.x, to.y - from.y) < 2 * HEAD.length ? [arc] : [arc, head(style, to, way)];
}

/** Lines along the grain, each a little shorter than the box. */
export const grain = (left, bottom, right, top, count) =>
  Array.from({ length: count }, (_, i) => {
    const y = bottom + ((top - bottom) * (i + 1)) / (count + 1);
    const shift = 3 + ((i * 7) % 9);
    return open('station', at(left + shift, y), at(right - 12 + shift, y));
  });

export const arcOver = (style, from, to, rise) => curved(style, arc(from, to, { rise }));

/** A sketch: its file, what it shows in words, and its items. */
export const sketch = (name, title, height, items, width = WIDTH) => ({
  name,
  title,
  drawing: { width, height, items: items.flat(Number.POSITIVE_INFINITY) },
});
