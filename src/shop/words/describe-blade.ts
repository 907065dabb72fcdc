import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { ShowLength } from '../../units/fault.ts';
import type { LengthFormat } from '../../units/graduation.ts';
import { joinList, present } from '../../units/lists.ts';
import { showAngle, showFixed } from '../../units/number-format.ts';
import type { Unit } from '../../units/unit.ts';
import type { Bend, LineCorner } from '../saw/bends-and-corners.ts';
import { type BladeAdvice, everyBladeTurns, type OwnBlade } from '../saw/blade-advice.ts';
import { BLADES, bladeName, COMMON_KERF_MM, minBladeRadius } from '../saw/blades.ts';

export function describeBlade(advice: BladeAdvice, words: LengthFormat): string[] {
  const { hollows, rounds, ownBlade } = advice;
  return present(
    `tightest hollow (concave): ${bendWords(hollows, words)}`,
    `tightest round (convex): ${bendWords(rounds, words)}`,
    widestWords(advice, words),
    ownBlade && ownBladeWords(ownBlade, words),
    ...cornerWords(advice, words),
  );
}

const bendWords = (bends: readonly Bend[], words: LengthFormat): string =>
  bends[0] ? `radius ${words.rounded(bends[0].radius)} at ${stationWords(bends, words)}` : 'none';

function stationWords(places: readonly (Bend | LineCorner)[], { rounded }: LengthFormat): string {
  const all = places.map(({ at, edge }) => `${rounded(at.x)} (${edge})`).join(', ');
  return `${places.length > 1 ? 'stations' : 'station'} ${all}`;
}

function widestWords(advice: BladeAdvice, { rounded, unit }: LengthFormat): string {
  const { widest, hollows, rounds } = advice;
  if (hollows.length + rounds.length === 0)
    return 'The part has no curve. Use the widest blade that fits your saw.';
  if (everyBladeTurns(advice))
    return 'Any blade can follow the part. Use the widest blade that fits your saw, because it tracks best.';
  if (widest)
    return (
      `widest blade that can follow them: ${bladeName(widest.width, unit, rounded)}. By the most cautious charts it needs a ` +
      `radius of ${rounded(widest.radius)} or more. Blades and wood vary, so test on waste.`
    );
  const [narrowest] = BLADES;
  return (
    `No band saw blade can follow the part. The narrowest, ${bladeName(narrowest.width, unit, rounded)}, needs a radius of ` +
    `${rounded(narrowest.radius)} or more. Bore the tight places, or cut them with a coping saw.`
  );
}

/** "The 1/2" blade cannot follow the 2 1/8" hollow at station 12" (lower). It needs a radius of 2 1/2". …". */
function ownBladeWords({ width, minRadius: least, kerf, tooTight }: OwnBlade, words: LengthFormat): string {
  const { rounded, unit } = words;
  const name = bladeName(width, unit, rounded);
  const fits =
    kerf && least > minBladeRadius(width)
      ? `In its own kerf of ${showKerf(kerf.kerf, unit)} it needs a radius of ${rounded(least)} or more.`
      : `It needs a radius of ${rounded(least)} or more.`;
  if (tooTight.length === 0) return `The ${name} blade can follow every bend. ${fits}`;
  const bends = tooTight.map(
    (bend) => `the ${rounded(bend.radius)} ${bend.kind} at ${stationWords([bend], words)}`,
  );
  return `The ${name} blade cannot follow ${joinList(bends, ' or ')}. ${fits} ${cureWords(tooTight, words)}`;
}

const showKerf = (mm: number, unit: Unit): string => showFixed(mm, unit, { in: 3, mm: 1 });

function cureWords(tooTight: readonly Bend[], { rounded, unit }: LengthFormat): string {
  const radius = Math.min(...tooTight.map((bend) => bend.radius)) - COMMON_KERF_MM / 2;
  const narrower = BLADES.findLast((row) => row.radius <= radius);
  const blade = narrower ? `, or use a ${bladeName(narrower.width, unit, rounded)} blade` : '';
  const there = tooTight.length > 1 ? 'those places' : 'that place';
  return `Nibble away the waste${blade ? ',' : ' or'} saw relief cuts to ${there}${blade}.`;
}

/** The outside corner of a shoulder needs no words of its own. */
export const shouldersIn = (corners: readonly LineCorner[]): readonly LineCorner[] =>
  corners.filter(({ kind, ofShoulder }) => ofShoulder && kind === 'inside');

export const shoulderWords = (shoulders: readonly LineCorner[], words: LengthFormat): string =>
  `${shoulders.length > 1 ? 'shoulders' : 'shoulder'} at ${stationWords(shoulders, words)}`;

function cornerWords({ corners }: BladeAdvice, words: LengthFormat): string[] {
  const shoulders = shouldersIn(corners);
  const isOfShoulder = (corner: LineCorner): boolean =>
    corner.ofShoulder &&
    shoulders.some(({ edge, at }) => edge === corner.edge && Math.abs(at.x - corner.at.x) < JOIN_MM);
  const it = shoulders.length > 1 ? 'them' : 'it';
  return present(
    shoulders.length > 0 &&
      `${shoulderWords(shoulders, words)}: a blade cannot turn into ${it}. Crosscut ${it} from the waste first.`,
    ...corners
      .filter((corner) => !isOfShoulder(corner))
      .map((corner) => cornerTurnWords(corner, words.rounded)),
  );
}

function cornerTurnWords({ kind, at, turn, edge }: LineCorner, about: ShowLength): string {
  const where = `${kind} corner of ${showAngle(turn)} at station ${about(at.x)} (${edge})`;
  return kind === 'inside'
    ? `${where}: a blade cannot turn it. Saw a relief cut through the waste, and stop just short of the corner. Then saw to the corner from both sides.`
    : `${where}: run out past it through the waste, then start again.`;
}
