import { headingRow, type TextRow } from '../cover/text-columns.ts';

/** One way to print a section: its rows, and the same as data for whoever reads along. */
export interface SectionVariant {
  readonly rows: readonly TextRow[];
  readonly list: unknown;
}

/** A headed block of the card, from as full as it can be to as short as it may be. */
export interface CardSection {
  /** What its data is called: "offsets". */
  readonly name: string;
  readonly title: string;
  /** The lower, the sooner it gets room. */
  readonly priority: number;
  readonly variants: readonly [SectionVariant, ...SectionVariant[]];
  /** Of the fillings, the one that will do while others are still short; the fullest where it is not said. */
  readonly sufficientVariant?: number;
}

/** What a section came to; one that found no room has no rows. */
export interface FittedSection {
  readonly name: string;
  readonly rows: readonly TextRow[];
  readonly list: unknown;
}

const EMPTY_VARIANT: SectionVariant = { rows: [], list: [] };

/**
 * Sections in one column: every one at its shortest first, then by rank as full as will do, then by rank as full as
 * the room left allows. Where even the shortest are too much, the last by rank are left out.
 */
export function fitSections(sections: readonly CardSection[], height: number): FittedSection[] {
  const byPriority = [...sections].sort((a, b) => a.priority - b.priority);
  const chosen = new Map<CardSection, SectionVariant>();
  const used = (): number =>
    [...chosen].reduce((sum, [section, one]) => sum + sectionHeight(section, one), 0);
  for (const section of byPriority) {
    const shortest = section.variants.at(-1)!;
    chosen.set(section, used() + sectionHeight(section, shortest) <= height ? shortest : EMPTY_VARIANT);
  }
  const grow = (section: CardSection, from: number): void => {
    const others = used() - sectionHeight(section, chosen.get(section)!);
    const fullest = section.variants
      .slice(from)
      .find((one) => others + sectionHeight(section, one) <= height);
    if (fullest) chosen.set(section, fullest);
  };
  for (const section of byPriority) grow(section, section.sufficientVariant ?? 0);
  for (const section of byPriority) grow(section, 0);
  return sections.map((section) => {
    const { rows, list } = chosen.get(section)!;
    return { name: section.name, rows: rows.length > 0 ? [headingRow(section.title), ...rows] : [], list };
  });
}

/** White between two sections, mm. */
export const SECTION_GAP_MM = 3;

const sectionHeight = ({ title }: CardSection, { rows }: SectionVariant): number =>
  rows.length === 0
    ? 0
    : [headingRow(title), ...rows].reduce((sum, row) => sum + row.height, 0) + SECTION_GAP_MM;
