/** A place in the job file, both counted from 1. */
export interface SourcePosition {
  readonly line: number;
  readonly column: number;
}

/**
 * The position of each key of a job file: `edges.back[1].apex`, `stock.width`; the file itself is ''.
 * A value on one line is placed at its start, one over several lines at its name.
 */
export type SourcePositions = ReadonlyMap<string, SourcePosition>;

/** The place of a key, or of the nearest key around it: a missing key has no place. */
export function findPosition(places: SourcePositions, key: string): SourcePosition | undefined {
  return places.get(key) ?? (key === '' ? undefined : findPosition(places, parentKey(key)));
}

const parentKey = (key: string): string =>
  key.slice(0, Math.max(0, key.lastIndexOf('.'), key.lastIndexOf('[')));
