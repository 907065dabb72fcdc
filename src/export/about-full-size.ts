import { FIT_MM } from '../curves/tolerance.ts';
import type { Part } from '../part/part.ts';

/** What a drawing of the whole part says of itself, a sentence each. */
export const aboutFullSize = (part: Part): string[] => [
  `${part.name}, full size.`,
  `Curves within ${FIT_MM} mm of the exact line: ${kindsOf(part)}.`,
];

const kindsOf = ({ edges }: Part): string =>
  [...new Set(edges.flatMap(({ runs }) => runs.map(({ kind }) => kind)))].join(', ');
