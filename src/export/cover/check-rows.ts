import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { cornersOnFace } from '../../part/edge.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { diagonals } from '../../tiling/check-crosses.ts';
import { expectedDifference, expectedError, expectedGap, expectedStep } from '../../tiling/expected-error.ts';
import type { CheckDistance, Layout } from '../../tiling/layout.ts';
import type { Rule } from '../../units/rule.ts';
import { type Dimensions, printedLength, roundedTolerance, toleranceText } from '../drawing/dimensions.ts';
import { seamChecks } from './seam-checks.ts';

/** A distance of the taped pattern, and the figure that 99% of careful work keeps. */
export interface CheckRow {
  readonly label: string;
  readonly reads: string;
  readonly error: string;
  /** How many distances the row stands for. */
  readonly count: number;
}

/** In the order of work: the seams as they are taped, then the whole. */
export function checkRows(part: Part, layout: Layout, { stations }: Dimensions): CheckRow[] {
  const { rule } = part;
  const isTaped = layout.sheets.length > 1;
  const seams = isTaped ? seamChecks(part, layout, stations) : [];
  const row = ({ label, length, from, to }: CheckDistance): CheckRow => ({
    label,
    reads: printedLength(length, rule),
    error: toleranceText(expectedError(layout, from, to), rule),
    count: 1,
  });
  return [
    ...joinAlike(seams.map((seam) => row({ ...seam, label: `${seam.sheets.join(' to ')}: ${seam.label}` }))),
    ...joinDiagonals(withoutRepeated(part, layout).map(row)),
    ...(isTaped ? [...differenceRows(layout, rule), ...straightedgeRows(part, layout)] : []),
  ];
}

/** A straight edge from end to end tells of every seam along the part: the other edge tells no more. */
function withoutRepeated(part: Part, { checks }: Layout): readonly CheckDistance[] {
  const straight = straightEdge(part);
  const others = part.edges.filter((edge) => straight && edge !== straight).map(({ name }) => `${name}, `);
  return checks.filter(({ label }) => !others.some((start) => label.startsWith(start)));
}

/** "cross P to cross R" and "cross Q to cross S" share a row where they read the same. */
function joinDiagonals(rows: readonly CheckRow[]): CheckRow[] {
  const [one, other] = rows.slice(-2);
  if (!one || !other || !one.label.startsWith('cross') || one.reads !== other.reads) return [...rows];
  return [...rows.slice(0, -2), { ...one, label: `${one.label}, ${other.label}`, count: 2 }];
}

/** Seams that read the same share a row. */
function joinAlike(rows: readonly CheckRow[]): CheckRow[] {
  const joined = new Map<string, CheckRow>();
  for (const row of rows) {
    const key = `${row.reads} ${row.error}`;
    const before = joined.get(key);
    if (before && before.count < MOST_IN_ROW) {
      const label = `${before.label}; ${row.label}`;
      joined.set(key, { ...before, label, count: before.count + 1 });
    } else joined.set(before ? `${key} ${joined.size}` : key, row);
  }
  return [...joined.values()].map((row) => ({ ...row, label: `across the seam ${row.label}` }));
}

/** More boxes in a row are too narrow to write in. */
const MOST_IN_ROW = 3;

/** Scale and damp change both diagonals alike: their difference shows a seam that is out of square. */
function differenceRows(layout: Layout, rule: Rule): CheckRow[] {
  const [one, other] = diagonals(layout.crosses);
  if (!one || !other) return [];
  const error = roundedTolerance(expectedDifference(layout, one, other), rule);
  const reads = Math.abs(one.length - other.length);
  return [
    {
      label: 'difference of the two diagonals, P to R and Q to S',
      reads: reads < JOIN_MM ? '0' : printedLength(reads, rule),
      error: reads < JOIN_MM ? printedLength(error, rule) : toleranceText(error, rule),
      count: 1,
    },
  ];
}

function straightedgeRows(part: Part, layout: Layout): CheckRow[] {
  const edge = straightEdge(part);
  if (!edge) return [];
  const [from, to] = cornersOnFace(part, edge);
  const row = (label: string, error: number): CheckRow[] => {
    const shown = printedLength(roundedTolerance(error, part.rule), part.rule);
    return error === 0 ? [] : [{ label: `${label} of ${edge.name}`, reads: '0', error: shown, count: 1 }];
  };
  const step = row('straightedge: widest step at a seam', expectedStep(layout, from, to));
  const gap = row('straightedge: widest gap from end to end', expectedGap(layout, from, to));
  const [one, other] = [...step, ...gap];
  if (!one || !other || one.error !== other.error) return [...step, ...gap];
  const label = `straightedge: widest step at a seam, widest gap from end to end of ${edge.name}`;
  return [{ ...one, label, count: 2 }];
}

export const straightEdge = ({ edges }: Part): PartEdge | undefined =>
  edges.find(({ runs }) =>
    runs.every(({ kind, from, to }) => kind === 'line' && Math.abs(from.y - to.y) < JOIN_MM),
  );
