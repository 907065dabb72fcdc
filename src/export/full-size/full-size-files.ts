import { FIT_MM } from '../../curves/geometry/tolerance.ts';
import type { Part } from '../../part/part.ts';
import type { Unit } from '../../units/unit.ts';
import type { Drawing } from '../drawing/drawing.ts';
import { writeDxf } from '../writers/dxf.ts';
import { writeSvg } from '../writers/svg.ts';
import type { FullSize } from './full-size.ts';

/** A part at full size as DXF, or all that lie on a board. */
export const fullSizeDxf = (part: Part, full: FullSize, as: { unit: Unit; splines: boolean }): string =>
  writeDxf(full, { ...as, about: [...describeFullSize(part), `Lengths in ${as.unit}.`] });

/** The same as SVG, for a machine: `drawing` is its page (`fullSizePage`). */
export const fullSizeSvg = (part: Part, { name }: FullSize, drawing: Drawing): string =>
  writeSvg(drawing, name, { bare: true, about: describeFullSize(part).join(' ') });

/** What such a file says of itself, a sentence each. */
const describeFullSize = (part: Part): string[] => [
  `${part.name}, full size.`,
  `Curves within ${FIT_MM} mm of the exact line: ${curveKindWords(part)}.`,
];

const curveKindWords = ({ edges }: Part): string =>
  [...new Set(edges.flatMap(({ runs }) => runs.map(({ kind }) => kind)))].join(', ');
