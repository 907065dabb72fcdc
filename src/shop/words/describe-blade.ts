import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { ShowLength } from '../../units/fault.ts';
import { showAngle } from '../../units/show-angle.ts';
import { MM_PER_INCH, type Unit } from '../../units/unit.ts';
import type { Bend, Corner } from '../saw/bends-and-corners.ts';
import { type AskedBlade, anyBladeTurns, type BladeAdvice } from '../saw/blade-advice.ts';
import { BLADES, bladeName, COMMON_KERF_MM, leastRadius } from '../saw/blades.ts';
import type { LengthWords } from './length-format.ts';

/** The blade in words: the tightest bends, the widest blade, corners, and the maker's own blade. */
export function sayBlade(advice: BladeAdvice, words: LengthWords): string[] {
  const { hollows, rounds, asked } = advice;
  return [
    `tightest hollow (concave): ${bendWords(hollows, words)}`,
    `tightest round (convex): ${bendWords(rounds, words)}`,
    widestWords(advice, words),
    ...(asked ? [askedWords(asked, words)] : []),
    ...cornerWords(advice, words),
  ];
}

/** "radius 3 1/2 in at station 12 in (back)", or at all the stations where it is as tight. */
const bendWords = (bends: readonly Bend[], words: LengthWords): string =>
  bends[0] ? `radius ${words.about(bends[0].radius)} at ${placesOf(bends, words)}` : 'none';

/** "stations 1 in (top), 13 in (top)". */
function placesOf(places: readonly (Bend | Corner)[], { about }: LengthWords): string {
  const all = places.map(({ at, edge }) => `${about(at.x)} (${edge})`).join(', ');
  return `${places.length > 1 ? 'stations' : 'station'} ${all}`;
}

function widestWords(advice: BladeAdvice, { about, unit }: LengthWords): string {
  const { widest, hollows, rounds } = advice;
  if (hollows.length + rounds.length === 0)
    return 'nothing bends: any blade saws it; take the widest your saw carries.';
  if (anyBladeTurns(advice))
    return 'every blade of the chart turns it: take the widest your saw carries, it runs straightest.';
  if (widest)
    return (
      `widest blade that turns them: ${bladeName(widest.width, unit, about)}, which asks for a radius of ` +
      `${about(widest.radius)} by the cautious charts; blades and stock differ, so try it on the waste.`
    );
  const narrowest = BLADES[0]!;
  return (
    `no band-saw blade turns this: the narrowest, ${bladeName(narrowest.width, unit, about)}, asks for a radius of ` +
    `${about(narrowest.radius)}. Bore the tight places, or saw them with a coping saw.`
  );
}

/** "the 1/2 in blade does not turn the 2 1/8 in hollow at station 12 in (lower): nibble, relief cuts or a 3/8 in blade". */
function askedWords({ width, leastRadius: least, kerf, tooTight }: AskedBlade, words: LengthWords): string {
  const { about, unit } = words;
  const name = bladeName(width, unit, about);
  const fits =
    kerf && least > leastRadius(width)
      ? `it fits its own kerf of ${fine(kerf.kerf, unit)} down to a radius of ${about(least)}`
      : `it asks for a radius of ${about(least)}`;
  if (tooTight.length === 0) return `the ${name} blade turns every bend: ${fits}.`;
  const bends = tooTight.map(
    (bend) => `the ${about(bend.radius)} ${bend.kind} at ${placesOf([bend], words)}`,
  );
  return `the ${name} blade does not turn ${bends.join(' nor ')}: ${fits}. ${cures(tooTight, words)}`;
}

/** A kerf, finer than a rule shows it: "1.1 mm", "0.043 in". */
const fine = (mm: number, unit: Unit): string =>
  unit === 'in' ? `${(mm / MM_PER_INCH).toFixed(3)} in` : `${mm.toFixed(1)} mm`;

function cures(tooTight: readonly Bend[], { about, unit }: LengthWords): string {
  const radius = Math.min(...tooTight.map((bend) => bend.radius)) - COMMON_KERF_MM / 2;
  const narrower = BLADES.findLast((row) => row.radius <= radius);
  const blade = narrower ? `, or take a ${bladeName(narrower.width, unit, about)} blade` : '';
  const there = tooTight.length > 1 ? 'those places' : 'that place';
  return `Nibble the waste away, saw relief cuts through it to ${there}${blade}.`;
}

/** Inside corners of shoulders; the outside corner of such a shoulder needs no word of its own. */
export const shouldersIn = (corners: readonly Corner[]): readonly Corner[] =>
  corners.filter(({ kind, ofShoulder }) => ofShoulder && kind === 'inside');

/** "shoulders at stations 1 in (top), 13 in (top)". */
export const shoulderWords = (shoulders: readonly Corner[], words: LengthWords): string =>
  `${shoulders.length > 1 ? 'shoulders' : 'shoulder'} at ${placesOf(shoulders, words)}`;

function cornerWords({ corners }: BladeAdvice, words: LengthWords): string[] {
  const shoulders = shouldersIn(corners);
  const isTold = (corner: Corner): boolean =>
    corner.ofShoulder &&
    shoulders.some(({ edge, at }) => edge === corner.edge && Math.abs(at.x - corner.at.x) < JOIN_MM);
  const it = shoulders.length > 1 ? 'them' : 'it';
  const told = `no blade turns into ${it}. Crosscut ${it} from the waste first.`;
  return [
    ...(shoulders.length > 0 ? [`${shoulderWords(shoulders, words)}: ${told}`] : []),
    ...corners.filter((corner) => !isTold(corner)).map((corner) => turnWords(corner, words.about)),
  ];
}

function turnWords({ kind, at, turn, edge }: Corner, about: ShowLength): string {
  const where = `${kind} corner of ${showAngle(turn)} at station ${about(at.x)} (${edge})`;
  return kind === 'inside'
    ? `${where}: no blade turns it. Saw a relief cut into it, and come to it from both sides.`
    : `${where}: run out past it through the waste, and begin anew.`;
}
