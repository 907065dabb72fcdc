import { expect, test } from 'vitest';
import { paramCurve } from '../../src/curves/geometry/evaluate.ts';
import type { Piece } from '../../src/curves/geometry/pieces/piece.ts';
import { distance, type Point, point } from '../../src/curves/geometry/point.ts';
import { formOf } from '../../src/part/derived/bending-form.ts';
import { edgesAsCut } from '../../src/part/outline/outline.ts';
import type { Part } from '../../src/part/part.ts';
import { adviseBlade } from '../../src/shop/saw/blade-advice.ts';
import { kerfLimitedRadius } from '../../src/shop/saw/blades.ts';
import { formFactor, laminate } from '../../src/shop/strip/lamination.ts';
import { sprungLine } from '../../src/shop/strip/sprung-line.ts';
import { adviseStrip } from '../../src/shop/strip/strip-advice.ts';
import { SPECIES } from '../../src/shop/wood/species.ts';
import { defaultRule } from '../../src/units/rule.ts';
import { faultsOf } from '../fuzz/answers.ts';
import { Random, ROUNDS } from '../fuzz/random.ts';
import { partOf } from '../part/jobs.ts';
import { either, spread } from './cases.ts';
import { slowDistance } from './slow.ts';

/** Twenty rounds are two hundred lines, and two thousand blades. */
const [LINES, BLADES] = [10, 100];

const rule = defaultRule('mm');
const KINDS = ['arc', 'bow', 'ellipse', 'batten', 'nails', 'spline'] as const;

/** A board with one bent line on it, 50 mm to 5 m long. */
function anyLine(random: Random): Part {
  const chord = spread(random, 50, 5000);
  const rise = either(random) * chord * (0.05 + 0.15 * random.next());
  const at = (share: number, height: number): string => `[${share * chord}, ${height * rise}]`;
  const kind = random.pick(KINDS);
  const share = 0.3 + 0.4 * random.next();
  const through = `[${at(0.3, 0.8 + 0.2 * random.next())}, ${at(0.7, 0.8 + 0.2 * random.next())}]`;
  const by = {
    arc: `rise: ${rise}`,
    bow: `rise: ${rise}`,
    ellipse: `rise: ${rise}`,
    batten: `through: ${at(share, 1)}`,
    nails: `through: ${through}`,
    spline: `through: ${through}`,
  }[kind];
  const name = kind === 'nails' ? 'batten' : kind;
  return partOf(
    `part: Rail\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n    - {${name}: [${chord}, 0], ${by}}\n`,
  );
}

const pointsOn = (piece: Piece, links: number): Point[] => {
  const at = paramCurve(piece);
  return Array.from({ length: links + 1 }, (_, i) => at(i / links));
};

/** Links that a piece is taken for where its bending is measured: two neighbours turn by a thousandth. */
const LINKS = 2000;

/**
 * The most that a fibre beside the line is stretched or shortened, as a share: its links against those of the line,
 * both of points alone; carried on to the ends, where no link has two neighbours, as it changes beside them.
 */
function slowStrain(pieces: readonly Piece[], away: number): number {
  const each = pieces.map((piece) => {
    const points = pointsOn(piece, LINKS);
    const links = points.slice(1).map((b, i) => ({
      angle: Math.atan2(b.y - points[i]!.y, b.x - points[i]!.x),
      length: distance(points[i]!, b),
    }));
    const stretched = links.slice(1).map(({ angle, length }, i) => {
      const before = links[i]!;
      const turn = Math.atan2(Math.sin(angle - before.angle), Math.cos(angle - before.angle));
      const mean = (length + before.length) / 2;
      // Half a link on either side of the corner, and the fibre's own link round it.
      return Math.abs(2 * away * Math.tan(turn / 2)) / mean;
    });
    const [a, b, c, d] = [stretched[0]!, stretched[1]!, stretched.at(-2)!, stretched.at(-1)!];
    return Math.max(...stretched, 2 * a - b, 2 * d - c);
  });
  return Math.max(...each);
}

/** What so many links may miss of the strain, as a share: at the ends of the flattest ellipse, where it falls off at once. */
const STRAIN_SHARE = 1e-3;

test('the strain told is what the fibres of the strip stretch, measured from points', () => {
  let good = 0;
  for (let i = 0; i < LINES * ROUNDS; i++) {
    const random = new Random(i);
    const species = random.pick(SPECIES);
    faultsOf(() => {
      const part = anyLine(random);
      const [run] = part.edges[0]!.runs;
      const line = sprungLine(
        run!,
        run!.pins.map(() => 0),
      );
      const told = adviseStrip(line, { species, rule, thickness: 1 + 9 * random.next() });
      const away = told.thickness / 2;
      const own = slowStrain(run!.exact, away);
      expect(Math.abs(told.strain / own - 1), `case ${i}: ${part.edges[0]!.runs[0]!.kind}`).toBeLessThan(
        STRAIN_SHARE,
      );
      // The thickest: its fibres stretch by half of what breaks the wood, MOR over MOE.
      const thickest = slowStrain(run!.exact, told.maxThickness / 2);
      expect(Math.abs(thickest / (species.mor / species.moe / 2) - 1)).toBeLessThan(STRAIN_SHARE);
      expect(told.verdict).toBe(
        own < (species.mor / species.moe) * (0.5 - STRAIN_SHARE)
          ? 'safe'
          : own > (species.mor / species.moe) * (1 + STRAIN_SHARE)
            ? 'breaks'
            : told.verdict,
      );
      good++;
    });
  }
  expect(good).toBe(LINES * ROUNDS);
}, 600_000);

/**
 * What is left of a bend when plies of thickness 1 come off their form as one piece: each pushes back with its own
 * stiffness, 1³/12, and bends all of them, stiff as one n thick, n³/12, until the whole is free of moment. By halving.
 */
function slowlyLeft(plies: number): number {
  let [free, bent] = [0, 1];
  for (let i = 0; i < 60; i++) {
    const left = (free + bent) / 2;
    const pushing = (plies * 1 ** 3) / 12 - ((1 - left) * plies ** 3) / 12;
    if (pushing > 0) bent = left;
    else free = left;
  }
  return free;
}

/** A chain of links, each turned out of the first's direction by a share of what it was. */
function relaxed(points: readonly Point[], share: number): Point[] {
  const angles = points.slice(1).map((b, i) => Math.atan2(b.y - points[i]!.y, b.x - points[i]!.x));
  let at = points[0]!;
  return [
    at,
    ...angles.map((angle, i) => {
      const way = angles[0]! + share * (angle - angles[0]!);
      const long = distance(points[i]!, points[i + 1]!);
      at = point(at.x + long * Math.cos(way), at.y + long * Math.sin(way));
      return at;
    }),
  ];
}

/** The same points with their first and last on those given. */
function between(points: readonly Point[], from: Point, to: Point): Point[] {
  const [a, b] = [points[0]!, points.at(-1)!];
  const turn = Math.atan2(to.y - from.y, to.x - from.x) - Math.atan2(b.y - a.y, b.x - a.x);
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return points.map((p) =>
    point(from.x + (p.x - a.x) * cos - (p.y - a.y) * sin, from.y + (p.x - a.x) * sin + (p.y - a.y) * cos),
  );
}

/** The form is fitted within 0.005 mm, its directions with it; links turn by hundredths: as a share of the chord. */
const FORM_SHARE = 2e-5;
const FORM_MM = 0.02;

test('plies sprung back off their form lie on the line that was asked for, all along it', () => {
  let good = 0;
  for (let i = 0; i < LINES * ROUNDS; i++) {
    const random = new Random(i + 1_000_000);
    const [plies, species] = [2 + random.below(12), random.pick(SPECIES)];
    faultsOf(() => {
      const part = anyLine(random);
      const edge = part.edges[0]!;
      const form = formOf(part, edge, formFactor(plies));
      const face = form.part.edges[0]!.runs[1]!.exact;
      const points = face.flatMap((piece, k) => pointsOn(piece, 200).slice(k === 0 ? 0 : 1));
      const asked = edge.pieces;
      const chord = distance(paramCurve(asked[0]!)(0), paramCurve(asked.at(-1)!)(1));
      const told = `case ${i}: ${edge.runs[0]!.kind}, ${plies} plies`;
      const left = relaxed(points, slowlyLeft(plies));
      const most = FORM_SHARE * chord + FORM_MM;
      expect(Math.abs(distance(left[0]!, left.at(-1)!) - chord), told).toBeLessThan(most);
      const laid = between(left, paramCurve(asked[0]!)(0), paramCurve(asked.at(-1)!)(1));
      const off = slowDistance(asked);
      for (let k = 0; k < laid.length; k += 25) expect(off(laid[k]!), told).toBeLessThan(most);
      // On the form a ply's fibres stretch by what the line's do over what is left of it.
      const onLine = slowStrain(asked, 1);
      const { strain } = laminate({ species, rule, curvature: onLine, plies, thickness: 2 * plies });
      expect(Math.abs(strain / (onLine / slowlyLeft(plies)) - 1), told).toBeLessThan(1e-9);
      good++;
    });
  }
  expect(good).toBeGreaterThan((LINES * ROUNDS) / 2);
}, 600_000);

/** The chart in inches, read off by hand: the blade's width, and the radius it asks for (common practice). */
const CHART: readonly (readonly [width: number, radius: number])[] = [
  [0.125, 0.25],
  [0.1875, 0.375],
  [0.25, 0.625],
  [0.375, 1.5],
  [0.5, 2.5],
  [0.625, 4],
  [0.75, 5.5],
  [1, 7.625],
  [1.25, 9.875],
];

/** The chart's radius for a width, mm, by halving the interval that holds it and its radii with it. */
function slowRadius(width: number): number {
  const inches = width / 25.4;
  if (inches <= CHART[0]![0]) return CHART[0]![1] * 25.4;
  const i = CHART.findIndex(([to]) => inches <= to);
  let [[low, atLow], [high, atHigh]] = [CHART[i - 1]!, CHART[i]!];
  for (let k = 0; k < 60; k++) {
    const [middle, at] = [(low + high) / 2, (atLow + atHigh) / 2];
    if (middle < inches) [low, atLow] = [middle, at];
    else [high, atHigh] = [middle, at];
  }
  return ((atLow + atHigh) / 2) * 25.4;
}

/** The tightest that a band goes round in its kerf, mm: its middle on the inner side, its back corners on the outer. */
function slowFit(width: number, kerf: number, gauge: number): number {
  let [tight, easy] = [kerf / 2, 1e7];
  for (let k = 0; k < 200; k++) {
    const radius = (tight + easy) / 2;
    const inner = radius - kerf / 2;
    if (Math.hypot(width / 2, inner + gauge) <= radius + kerf / 2) easy = radius;
    else tight = radius;
  }
  return easy;
}

test('what a blade turns, against the chart and its kerf', () => {
  for (let i = 0; i < BLADES * ROUNDS; i++) {
    const random = new Random(i + 2_000_000);
    const [radius, way, allowance] = [spread(random, 8, 400), either(random), 2 * random.next()];
    const width = 3 + 28 * random.next();
    const bladeThickness = 0.4 + 0.4 * random.next();
    const kerf = bladeThickness + spread(random, 0.1, 0.6);
    const half = radius * (0.2 + 0.7 * random.next());
    const part = partOf(
      `part: Rail\nunits: mm\nallowance: {saw: ${allowance}}\nedges:\n  a:\n    - from: [0, 500]\n` +
        `    - arc: [${2 * half}, 500]\n      radius: ${way * radius}\n`,
    );
    // Over the reference line the wood is below: what bulges up is round. From the arc's own middle, the kerf lies
    // outside a round and inside a hollow, the allowance between them.
    const middleOf = (wide: number): number => radius + way * (allowance + wide / 2);
    const advice = adviseBlade(part, edgesAsCut(part), { width, kerf: { kerf, bladeThickness } });
    const [bend] = [...advice.hollows, ...advice.rounds];
    const told = `case ${i}: ${bend?.kind} ${radius}, ${width} wide`;
    expect(bend?.kind, told).toBe(way > 0 ? 'round' : 'hollow');
    const widest = CHART.findLast((row) => row[1] * 25.4 <= middleOf(kerf));
    expect(advice.widest?.width ?? 0, told).toBeCloseTo((widest?.[0] ?? 0) * 25.4, 9);
    expect(advice.tooTightForAny.length, told).toBe(widest ? 0 : 1);
    // The rule for the fit leaves out half the gauge, on the safe side.
    const fits = slowFit(width, kerf, bladeThickness) + bladeThickness / 2;
    expect(Math.abs(kerfLimitedRadius(width, { kerf, bladeThickness }) / fits - 1), told).toBeLessThan(1e-9);
    const least = Math.max(slowRadius(width), fits);
    expect(Math.abs(advice.ownBlade!.minRadius / least - 1), told).toBeLessThan(1e-9);
    expect(advice.ownBlade!.tooTight.length, told).toBe(middleOf(kerf) < least ? 1 : 0);
  }
}, 600_000);
