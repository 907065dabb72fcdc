import { findPosition, JobFaults, PlacedFault, type SourcePositions } from '../../job/job-faults.ts';
import type { Part } from '../../part/part.ts';
import { catchFault, Fault, type Warning } from '../../units/fault.ts';
import { lostLetters } from '../../units/font-runs.ts';
import { joinList, present } from '../../units/lists.ts';
import { assertPliesBend, planPlies, plyWarnings } from '../plies/plan-plies.ts';
import { BATTEN_WOOD, matchSpecies } from '../wood/find-species.ts';

export const LOST_LETTER = 'letter.lost';

/**
 * With what the maker should know about the words and the plies of the job, at their line where `positions` has it.
 * @throws JobFaults where plies cannot bend as the job says
 */
export function withWrittenWarnings(part: Part, positions: SourcePositions = new Map()): Part {
  const written = [
    ...lostLetterWarnings(part),
    ...speciesWarnings(part),
    ...bendWarnings(part, positions),
  ].map(({ key, ...warning }) => {
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

/** Whether the plies of a laminated part bend to its form. */
function bendWarnings(part: Part, positions: SourcePositions): PlacedWarning[] {
  if (!part.laminate) return [];
  const { lamination } = catchFault(
    () => {
      const plan = planPlies(part);
      assertPliesBend(part, plan.lamination);
      return plan;
    },
    (fault) => {
      const placed = fault.at('laminate');
      const place = findPosition(positions, placed.key ?? '') ?? { line: 1, column: 1 };
      throw new JobFaults([new PlacedFault(placed, place)]);
    },
  );
  return plyWarnings(part, lamination).map((warning) => ({ ...warning, key: 'laminate' }));
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
