import { closestName } from '../../job/parse/did-you-mean.ts';
import { Fault } from '../../units/fault.ts';
import { joinList } from '../../units/lists.ts';
import { quoted } from '../../units/quoted.ts';
import { SPECIES, type Species } from './species.ts';

/** Straight in the grain, sold everywhere, and it bends farther before it breaks than most woods as easily had. */
export const BATTEN_WOOD = 'White ash';

/** In small letters, without hyphens or commas: "Yellow-poplar" gives "yellow" and "poplar". */
const wordsOf = (name: string): string[] => name.toLowerCase().match(/\p{L}+/gu) ?? [];

const namesOf = ({ name, alsoCalled }: Species): readonly string[] => [name, ...alsoCalled];

function speciesMatching(words: readonly string[]): readonly Species[] {
  if (words.length === 0) return [];
  const isMeant = (own: readonly string[]): boolean => words.every((word) => own.includes(word));
  return SPECIES.filter((species) => namesOf(species).map(wordsOf).some(isMeant));
}

/** Finds a wood by its full name or by enough of its words, in any case: "White oak", "beech", "douglas fir". */
export function matchSpecies(name: string): Species | Fault {
  const words = wordsOf(name);
  const found = speciesMatching(words);
  const [one, ...others] = found;
  if (one && others.length === 0) return one;
  const names = (one ? found : SPECIES).map((species) => species.name);
  const which = `${quoted(name)} may be ${joinList(names, ' or ')}. Write the full name.`;
  if (one) return new Fault('species.ambiguous', which);
  const meant = suggestSpecies(words.join(' '));
  const cure = meant === undefined ? `Use one of these: ${names.join(', ')}.` : `Did you mean "${meant}"?`;
  return new Fault('species.unknown', `fairlath has no figures for the wood ${quoted(name)}. ${cure}`);
}

export function findSpecies(name: string): Species {
  const found = matchSpecies(name);
  if (found instanceof Fault) throw found;
  return found;
}

/** The nearest full name, or else the nearest single word: "beach" is near "beech". */
function suggestSpecies(words: string): string | undefined {
  const names = SPECIES.flatMap(namesOf);
  const spelt = new Map(names.map((name) => [wordsOf(name).join(' '), name]));
  const near = closestName(words, [...spelt.keys()]);
  return near === undefined ? closestName(words, names.flatMap(wordsOf)) : spelt.get(near);
}

/** The wood asked for, or that of the stock, where an offcut is at hand, or white ash. Unknown stock is not a mistake. */
export function chooseStripSpecies(asked: string | undefined, ofStock: string | undefined): Species {
  return asked === undefined ? (findKnownSpecies(ofStock) ?? findSpecies(BATTEN_WOOD)) : findSpecies(asked);
}

/** Undefined where the wood is not named, not known, or may be several. */
export function findKnownSpecies(ofStock: string | undefined): Species | undefined {
  const [one, ...others] = speciesMatching(wordsOf(ofStock ?? ''));
  return others.length === 0 ? one : undefined;
}
