import { findPosition, type SourcePositions } from '../../job/job-faults.ts';
import type { Part } from '../../part/part.ts';
import { Fault, type Warning } from '../../units/fault.ts';
import { lostLetters } from '../../units/font-runs.ts';
import { joinList, present } from '../../units/lists.ts';
import { BATTEN_WOOD, matchSpecies } from '../wood/find-species.ts';

export const LOST_LETTER = 'letter.lost';

/** With what the maker should know about the words of the job, at their line where `positions` has it. */
export function withWrittenWarnings(part: Part, positions: SourcePositions = new Map()): Part {
  const written = [...lostLetterWarnings(part), ...speciesWarnings(part)].map(({ key, ...warning }) => {
    const line = findPosition(positions, key)?.line;
    const place = line === undefined || line < 1 ? key : `line ${line}, ${key}`;
    return { ...warning, key, message: `${place}: ${warning.message}` };
  });
  return { ...part, warnings: [...part.warnings, ...written] };
}

type PlacedWarning = Warning & { readonly key: string };

/** A wood that is named but not known, or may be several, has no figures. */
function speciesWarnings({ stock }: Part): PlacedWarning[] {
  const found = stock?.species === undefined ? undefined : matchSpecies(stock.species);
  if (!(found instanceof Fault)) return [];
  const instead = `Until then fairlath gives no weight, and plans a batten of ${BATTEN_WOOD.toLowerCase()}.`;
  return [{ code: found.code, key: 'stock.species', message: `${found.message} ${instead}` }];
}

const MAX_LISTED = 5;

function lostLetterWarnings({ name, edges, joints, stock, notes }: Part): PlacedWarning[] {
  const texts: readonly (readonly [key: string, text: string | undefined])[] = [
    ['part', name],
    ...edges.map((edge) => [edge.key, edge.name] as const),
    ...joints.map(({ key, label }) => [`${key}.label`, label] as const),
    ['stock.species', stock?.species],
    ['notes', notes],
  ];
  return texts.flatMap(([key, text = '']) => {
    const lost = [...lostLetters(text)];
    if (lost.length === 0) return [];
    const shown = lost
      .slice(0, MAX_LISTED)
      .map(
        ([letter, printed]) => `"${letter}" (${codeOf(letter)}) as ${printed ? `"${printed}"` : 'nothing'}`,
      );
    const more = lost.length - shown.length;
    const list = joinList(present(...shown, more > 0 && `${more} more`), ' and ');
    return { code: LOST_LETTER, key, message: `paper shows ${list}. Use other letters.` };
  });
}

const codeOf = (letter: string): string =>
  `U+${(letter.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;
