import { heading, type Row } from '../cover/text-columns.ts';

/** One way to print a section: its rows, and the same as data for whoever reads along. */
export interface Filling {
  readonly rows: readonly Row[];
  readonly list: unknown;
}

/** A headed block of the card, from as full as it can be to as short as it may be. */
export interface Section {
  /** What its data is called: "offsets". */
  readonly name: string;
  readonly title: string;
  /** The lower, the sooner it gets room. */
  readonly rank: number;
  readonly fillings: readonly [Filling, ...Filling[]];
  /** Of the fillings, the one that will do while others are still short; the fullest where it is not said. */
  readonly enough?: number;
}

/** What a section came to; one that found no room has no rows. */
export interface Printed {
  readonly name: string;
  readonly rows: readonly Row[];
  readonly list: unknown;
}

const NOTHING: Filling = { rows: [], list: [] };

/**
 * Sections in one column: every one at its shortest first, then by rank as full as will do, then by rank as full as
 * the room left allows. Where even the shortest are too much, the last by rank are left out.
 */
export function fitSections(sections: readonly Section[], height: number): Printed[] {
  const byRank = [...sections].sort((a, b) => a.rank - b.rank);
  const chosen = new Map<Section, Filling>();
  const used = (): number => [...chosen].reduce((sum, [section, one]) => sum + heightOf(section, one), 0);
  for (const section of byRank) {
    const shortest = section.fillings.at(-1)!;
    chosen.set(section, used() + heightOf(section, shortest) <= height ? shortest : NOTHING);
  }
  const widen = (section: Section, from: number): void => {
    const others = used() - heightOf(section, chosen.get(section)!);
    const fullest = section.fillings.slice(from).find((one) => others + heightOf(section, one) <= height);
    if (fullest) chosen.set(section, fullest);
  };
  for (const section of byRank) widen(section, section.enough ?? 0);
  for (const section of byRank) widen(section, 0);
  return sections.map((section) => {
    const { rows, list } = chosen.get(section)!;
    return { name: section.name, rows: rows.length > 0 ? [heading(section.title), ...rows] : [], list };
  });
}

/** White between two sections, mm. */
export const SECTION_GAP_MM = 3;

const heightOf = ({ title }: Section, { rows }: Filling): number =>
  rows.length === 0
    ? 0
    : [heading(title), ...rows].reduce((sum, row) => sum + row.height, 0) + SECTION_GAP_MM;
