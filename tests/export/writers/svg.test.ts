import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evaluate, pieceEnd, pieceStart } from '../../../src/curves/geometry/evaluate.ts';
import type {
  ArcSegment,
  CubicSegment,
  LineSegment,
  Segment,
} from '../../../src/curves/geometry/pieces/piece.ts';
import { distance, type Point, point } from '../../../src/curves/geometry/point.ts';
import {
  circle,
  type Drawing,
  type Item,
  LINE_APPEARANCES,
  polyline,
  type Stroke,
  words,
} from '../../../src/export/drawing/drawing.ts';
import { writeSvg } from '../../../src/export/writers/svg.ts';
import { type ReadStep, readPath } from '../read-svg-path.ts';

const [WIDTH, HEIGHT] = [260, 180];
const drawing = (...items: Item[]): Drawing => ({ width: WIDTH, height: HEIGHT, items });
const svg = (...items: Item[]): string => writeSvg(drawing(...items), 'Bench apron');

const stroke = (path: readonly Segment[], closed = false): Stroke => ({
  type: 'stroke',
  style: 'cut',
  path,
  closed,
});

/** The path data of the strokes of a text, in order. */
const pathsOf = (text: string): string[] => [...text.matchAll(/ d="([^"]*)"/g)].map(([, d]) => d!);

const readBack = (...path: Segment[]): ReadStep[] => readPath(pathsOf(svg(stroke(path)))[0]!, HEIGHT);

/**
 * How far a path read back may lie off, mm. Coordinates and radii are written to 0.001, so that a point is off
 * by 0.0005·√2 = 0.00071. An arc is written in parts of 45° at most: its sagitta r − √(r² − h²) moves by
 * tan 22.5° of what half its chord does, and by 1/cos 22.5° − 1 of what its radius does: 0.00033 more.
 */
const ROUNDED_MM = 0.00105;

const PLACES = Array.from({ length: 21 }, (_, i) => i / 20);

/** The farthest that steps read back lie from a line or cubic, place by place. */
const farFromCurve = (steps: readonly ReadStep[], segment: LineSegment | CubicSegment): number =>
  Math.max(...PLACES.map((u) => distance(steps[0]!.at(u), evaluate(segment, u))));

/** The farthest that steps read back lie from a circle; their ends are judged by their places. */
function farFromArc(steps: readonly ReadStep[], arc: ArcSegment): number {
  const places = steps.flatMap(({ at }) => PLACES.map(at));
  const off = places.map((p) => Math.abs(distance(p, arc.centre) - arc.radius));
  const ends = [distance(places[0]!, pieceStart(arc)), distance(places.at(-1)!, pieceEnd(arc))];
  return Math.max(...off, ...ends);
}

/** By how much some places turn about a centre, counter-clockwise, radians. */
function turnAbout(centre: Point, steps: readonly ReadStep[]): number {
  const angles = steps
    .flatMap(({ at }) => PLACES.map(at))
    .map(({ x, y }) => Math.atan2(y - centre.y, x - centre.x));
  return angles.slice(1).reduce((sum, angle, i) => {
    const turn = angle - angles[i]!;
    return sum + turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI));
  }, 0);
}

describe('the page', () => {
  test('has its size in mm, and one unit of it is one mm', () => {
    const text = writeSvg({ width: 215.9, height: 279.4, items: [] }, 'Bench apron');
    expect(text).toMatch(
      /^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" width="215\.9mm" height="279\.4mm" viewBox="0 0 215\.9 279\.4" font-family="[^"]*">\n/,
    );
    expect(text).toMatch(/<\/svg>\n$/);
  });

  test('says how each kind of line looks, and each line stands among its kind', () => {
    const text = svg(
      ...(Object.keys(LINE_APPEARANCES) as (keyof typeof LINE_APPEARANCES)[]).map((style) =>
        polyline(style, [point(0, 0), point(9, 9)]),
      ),
    );
    for (const [style, { width, colour, dash }] of Object.entries(LINE_APPEARANCES)) {
      const [, look] = text.match(new RegExp(`<g class="${style}" ([^>]*)>\n<path d=`))!;
      expect(look).toContain(`fill="none" stroke="${colour}" stroke-width="${width}"`);
      expect(look!.includes(`stroke-dasharray="${dash?.join(' ')}"`)).toBe(dash !== undefined);
    }
  });

  test('says it once for lines in a row that look alike', () => {
    const line = polyline('cut', [point(0, 0), point(9, 9)]);
    const text = svg(line, line, circle('mark', point(9, 9), 2), line);
    expect(text.match(/<g class="cut"/g)).toHaveLength(2);
    expect(text).toMatch(/<g class="cut" [^>]*>\n<path [^>]*\/>\n<path [^>]*\/>\n<\/g>/);
  });

  test('is well formed: every element is closed, in order', () => {
    const clip: Item = {
      type: 'clip',
      left: 0,
      bottom: 0,
      right: 9,
      top: 9,
      items: [words('1A', point(1, 1), 3)],
    };
    const open: string[] = [];
    for (const [, close, name, , empty] of svg(
      clip,
      circle('mark', point(9, 9), 2),
      words('a < b', point(0, 0), 3),
    ).matchAll(/<(\/?)(\w+)((?: [\w-]+="[^"<]*")*)(\/?)>/g)) {
      if (close) expect(open.pop()).toBe(name);
      else if (!empty) open.push(name!);
    }
    expect(open).toEqual([]);
  });
});

describe('a path', () => {
  test('keeps its segments in order, joined, and closes where it is closed', () => {
    const [a, b, c, d] = [point(10, 10), point(60, 10), point(80, 30), point(20, 60)];
    const corner: ArcSegment = {
      type: 'arc',
      centre: point(60, 30),
      radius: 20,
      start: -Math.PI / 2,
      sweep: Math.PI / 2,
    };
    const back: CubicSegment = { type: 'cubic', controls: [c, point(80, 50), point(50, 60), d] };
    const [data] = pathsOf(svg(stroke([{ type: 'line', from: a, to: b }, corner, back], true)));
    expect(data).toMatch(/^M10 170L60 170(A20 20 0 0 0 [\d. ]+)+C80 130 50 120 20 120Z$/);
    const steps = readPath(data!, HEIGHT);
    expect(steps.map(({ letter }) => letter).join('')).toMatch(/^LA+CZ$/);
    expect(distance(steps.at(-1)!.at(1), a)).toBeLessThan(ROUNDED_MM);
  });

  test('that is empty draws nothing', () => expect(pathsOf(svg(stroke([])))).toEqual([]));

  test('is filled in its own color if it is filled', () => {
    const text = svg({
      ...polyline('register', [point(0, 0), point(9, 0), point(9, 9)], true),
      filled: true,
    });
    expect(text).toMatch(new RegExp(`<path d="[^"]*" fill="${LINE_APPEARANCES.register.colour}"/>`));
    expect(svg(circle('register', point(9, 9), 2))).not.toMatch(/<path [^>]*fill=/);
  });
});

describe('an arc', () => {
  test('of a full circle is all there, whatever the rounding does to its ends', () => {
    for (const radius of [0.6, 1.2, 12.0004, 50.0005, 88.00051])
      for (const centre of [point(100, 90), point(100.0004, 89.99951)]) {
        const ring = circle('mark', centre, radius).path[0] as ArcSegment;
        const steps = readPath(pathsOf(svg(circle('mark', centre, radius)))[0]!, HEIGHT).slice(0, -1);
        expect(farFromArc(steps, ring)).toBeLessThan(ROUNDED_MM);
        expect(turnAbout(centre, steps)).toBeCloseTo(2 * Math.PI, 3);
      }
  });

  test.each([1, -1])('just short of a full circle keeps its way round: %d', (way) => {
    for (const gap of [1e-9, 1e-5, 1e-3]) {
      const arc: ArcSegment = {
        type: 'arc',
        centre: point(100, 90),
        radius: 60,
        start: 1,
        sweep: way * (2 * Math.PI - gap),
      };
      const steps = readBack(arc);
      expect(farFromArc(steps, arc)).toBeLessThan(ROUNDED_MM);
      expect(turnAbout(arc.centre, steps)).toBeCloseTo(arc.sweep, 3);
    }
  });

  test('too small for a thousandth of a millimetre draws no more than its place', () => {
    const arc: ArcSegment = { type: 'arc', centre: point(100, 90), radius: 1e-5, start: 0, sweep: 3 };
    for (const { at } of readBack(arc))
      for (const u of PLACES) expect(distance(at(u), arc.centre)).toBeLessThan(0.002);
  });
});

const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const anyPoint = fc.tuple(within(-3000, 3000), within(-3000, 3000)).map(([x, y]) => point(x, y));
const anyLine = fc.tuple(anyPoint, anyPoint).map(([from, to]): LineSegment => ({ type: 'line', from, to }));
const anyCubic = fc
  .tuple(anyPoint, anyPoint, anyPoint, anyPoint)
  .map((controls): CubicSegment => ({ type: 'cubic', controls }));
const anyArc = fc.record({
  type: fc.constant('arc' as const),
  centre: anyPoint,
  radius: within(1, 5000),
  start: within(-4, 4),
  sweep: within(0.001, 2 * Math.PI).chain((size) => fc.constantFrom(size, -size)),
});

test('property: a path read back lies where it was drawn', () => {
  fc.assert(
    fc.property(fc.oneof(anyLine, anyCubic), (segment) => {
      expect(farFromCurve(readBack(segment), segment)).toBeLessThan(ROUNDED_MM);
    }),
  );
});

test('property: an arc read back lies where it was drawn and turns as far the same way', () => {
  fc.assert(
    fc.property(anyArc, (arc) => {
      const steps = readBack(arc);
      expect(farFromArc(steps, arc)).toBeLessThan(ROUNDED_MM);
      expect(Math.abs(turnAbout(arc.centre, steps) - arc.sweep) * arc.radius).toBeLessThan(3 * ROUNDED_MM);
    }),
  );
});

const tiny = fc.oneof(within(-1e-12, 1e-12), within(-1e8, 1e8), fc.constantFrom(-0, 5e-324, 1e-7, -1e-7));

test('property: every number is a plain decimal of three places at most', () => {
  const spot = fc.tuple(tiny, tiny).map(([x, y]) => point(x, y));
  const turned = fc.tuple(spot, within(-7, 7)).map(([at, turn]) => words('1A', at, 3, 'middle', turn));
  const line = fc.tuple(spot, spot).map(([from, to]) => stroke([{ type: 'line', from, to }]));
  const item = fc.oneof(
    anyArc.map((arc) => stroke([arc])),
    line,
    turned,
  );
  fc.assert(
    fc.property(item, (each) => {
      const text = svg(each);
      expect(text).not.toMatch(/NaN|Infinity|undefined/);
      const written = [...text.matchAll(/ (?:d|x|y|width|height|transform)="([^"]*)"/g)].map(
        ([, value]) => value!,
      );
      for (const number of written.join(' ').match(/[-\d.][-+\d.e]*/gi)!)
        expect(number).toMatch(/^(?!-0$)-?\d+(\.\d{1,3})?$/);
    }),
  );
});

describe('words', () => {
  const only = (item: Item): string => svg(item).match(/<text.*<\/text>/)![0];

  test('stand at their place with their size and anchor', () => {
    expect(only(words('1A', point(10, 20), 3.6, 'end'))).toBe(
      '<text x="10" y="160" font-size="3.6" text-anchor="end">1A</text>',
    );
  });

  test('turned counter-clockwise turn about their place, which SVG counts the other way', () => {
    expect(only(words('1A', point(10, 20), 3, 'start', Math.PI / 2))).toContain(
      'transform="rotate(-90 10 160)"',
    );
    expect(only(words('1A', point(10, 20), 3, 'start', -Math.PI / 6))).toContain(
      'transform="rotate(30 10 160)"',
    );
  });

  test.each([
    ['Tom & "Rail" <b>', 'Tom &amp; &quot;Rail&quot; &lt;b&gt;'],
    ['&amp;', '&amp;amp;'],
    ["34 1⁄32 in, 2' 4", "34 1/32 in, 2' 4"],
    [']]>', ']]&gt;'],
  ])('are escaped: %s', (text, written) => {
    expect(only(words(text, point(0, 0), 3))).toContain(`>${written}</text>`);
  });

  test('the title is escaped, too', () => {
    expect(writeSvg(drawing(), '<script>"&')).toContain('<title>&lt;script&gt;&quot;&amp;</title>');
  });
});

describe('what is not finite is refused', () => {
  const arc: ArcSegment = { type: 'arc', centre: point(0, 0), radius: 9, start: 0, sweep: 1 };
  test.each<[string, () => string]>([
    ['the width of the page', () => writeSvg({ width: Number.NaN, height: 9, items: [] }, '')],
    ['the height of the page', () => writeSvg({ width: 9, height: Number.POSITIVE_INFINITY, items: [] }, '')],
    ['a point', () => svg(polyline('cut', [point(0, Number.NaN), point(1, 1)]))],
    ['a radius', () => svg(stroke([{ ...arc, radius: Number.POSITIVE_INFINITY }]))],
    ['a sweep', () => svg(stroke([{ ...arc, sweep: Number.NaN }]))],
    ['a size of type', () => svg(words('1A', point(0, 0), Number.NaN))],
    ['a turn of words', () => svg(words('1A', point(0, 0), 3, 'start', Number.NaN))],
    ['a place beyond any paper', () => svg(polyline('cut', [point(0, 0), point(1e300, 1)]))],
  ])('%s', (_, write) => expect(write).toThrow(/a drawing holds/));
});
