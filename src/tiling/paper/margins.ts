/** White along each side of upright paper, mm. */
export interface Margins {
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  readonly left: number;
}

export type Margin = number | Margins;

export const marginSides = (margin: Margin): Margins =>
  typeof margin === 'number' ? { top: margin, right: margin, bottom: margin, left: margin } : margin;

/** Which way a printer turns a lying page is up to the printer, so opposite sides both keep the wider margin. */
export function landscapeMargins({ top, right, bottom, left }: Margins): Margins {
  const [short, long] = [Math.max(top, bottom), Math.max(left, right)];
  return { top: long, bottom: long, left: short, right: short };
}
