/** White kept along each side of the paper as it stands upright, mm. */
export interface Margins {
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  readonly left: number;
}

/** One margin all round, or one a side. */
export type Margin = number | Margins;

export const marginSides = (margin: Margin): Margins =>
  typeof margin === 'number' ? { top: margin, right: margin, bottom: margin, left: margin } : margin;

/**
 * The margins of a lying page. Which way a printer turns such a page to fit its paper is up to the
 * printer, so each pair of opposite sides keeps its wider one.
 */
export function landscapeMargins({ top, right, bottom, left }: Margins): Margins {
  const [short, long] = [Math.max(top, bottom), Math.max(left, right)];
  return { top: long, bottom: long, left: short, right: short };
}
