/** Where a joint is laid out: the other face, or an edge by its name. Absent: the reference face. */
export interface OnSide {
  readonly face?: string;
}

export const OTHER_FACE = 'other-face';

/** On an edge `out` counts from the reference face. */
export const isOnEdge = ({ face }: OnSide): boolean => face !== undefined && face !== OTHER_FACE;
