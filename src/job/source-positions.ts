/** Where something stands in the job file, both counted from 1. */
export interface SourcePosition {
  readonly line: number;
  readonly column: number;
}

/**
 * Where each key of a job file stands: `edges.back[1].apex`, `stock.width`; the file itself is ''.
 * A value on one line is placed where it begins, one spread over lines at its name.
 */
export type SourcePositions = ReadonlyMap<string, SourcePosition>;

/** The place of a key, or of the nearest key around it: a key that is missing has no place of its own. */
export function findPosition(places: SourcePositions, key: string): SourcePosition | undefined {
  return places.get(key) ?? (key === '' ? undefined : findPosition(places, parentKey(key)));
}

const parentKey = (key: string): string =>
  key.slice(0, Math.max(0, key.lastIndexOf('.'), key.lastIndexOf('[')));
