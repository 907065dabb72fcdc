import { headingRow, type TextRow } from '../cover/text-columns.ts';

export interface SectionVariant {
  readonly rows: readonly TextRow[];
  readonly list: unknown;
}

export interface CardSection {
  readonly name: string;
  readonly title: string;
  readonly priority: number;
  readonly variants: readonly SectionVariant[];
  /** Which variant will do while other sections are still short; the fullest where absent. */
  readonly sufficientVariant?: number;
}

/** Variants with fewer and fewer items, from `most` down to `least`. */
export const shrinkingVariants = (most: number, least: number, make: (count: number) => SectionVariant) =>
  Array.from({ length: most - least + 1 }, (_, i) => make(most - i));

const EMPTY_VARIANT: SectionVariant = { rows: [], list: [] };

/** Every section first at its shortest, then by priority as full as will do, then as full as the room allows. */
export function fitSections(sections: readonly CardSection[], height: number) {
  const chosen = sections.map((section) => ({ section, variant: EMPTY_VARIANT }));
  const byPriority = chosen.toSorted((a, b) => a.section.priority - b.section.priority);
  const grow = (one: (typeof chosen)[number], variants: readonly SectionVariant[]): void => {
    const used = byPriority.reduce((sum, { section, variant }) => sum + sectionHeight(section, variant), 0);
    const others = used - sectionHeight(one.section, one.variant);
    const fullest = variants.find((each) => others + sectionHeight(one.section, each) <= height);
    if (fullest) one.variant = fullest;
  };
  for (const one of byPriority) grow(one, one.section.variants.slice(-1));
  for (const one of byPriority) grow(one, one.section.variants.slice(one.section.sufficientVariant ?? 0));
  for (const one of byPriority) grow(one, one.section.variants);
  return chosen.map(({ section, variant: { rows, list } }) => ({
    name: section.name,
    rows: rows.length > 0 ? [headingRow(section.title), ...rows] : [],
    list,
    isFull: rows === section.variants[0]?.rows,
  }));
}

/** White between two sections, mm. */
export const SECTION_GAP_MM = 3;

const sectionHeight = ({ title }: CardSection, { rows }: SectionVariant): number =>
  rows.length === 0
    ? 0
    : [headingRow(title), ...rows].reduce((sum, row) => sum + row.height, 0) + SECTION_GAP_MM;
