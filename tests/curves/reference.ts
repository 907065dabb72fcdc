import { readFileSync } from 'node:fs';
import type { Point } from '../../src/curves/geometry/point.ts';

/** One case of a strip over pins; see tests/fixtures/README.md. Chord 1, EI = 1. */
export interface BattenCase {
  readonly id: string;
  readonly inputs: {
    readonly pins: readonly [number, number][];
    readonly hold_A: number | null;
    readonly hold_B: number | null;
  };
  readonly outputs: {
    readonly theta_at_pins: readonly number[];
    readonly kappa_at_pins: readonly number[];
    readonly L_spans: readonly number[];
    readonly L_total: number;
    readonly pin_reaction_normal_over_EI: readonly number[];
    readonly station_x: readonly number[];
    readonly offsets_y: readonly number[];
    readonly apex: { readonly x: number; readonly y: number; readonly kappa: number };
    readonly inflections: readonly unknown[];
  };
}

/** How high a nail can lift a strip at a station, per chord, and what happens there. */
interface ExistenceLimit {
  readonly x_over_c: number;
  readonly limit_h_over_c: number;
  readonly limit_kind: string;
}

export interface ReferenceCases {
  readonly free3pin: readonly BattenCase[];
  readonly heldEnds: readonly BattenCase[];
  readonly manyPins: readonly BattenCase[];
  readonly constants: Readonly<Record<string, number>>;
  readonly existenceLimits: Readonly<Record<'free' | 'both' | 'heldA', readonly ExistenceLimit[]>>;
}

export const reference = JSON.parse(
  readFileSync(new URL('../fixtures/batten-cases.json', import.meta.url), 'utf8'),
) as ReferenceCases;

export const pinsOf = ({ inputs }: BattenCase): Point[] => inputs.pins.map(([x, y]) => ({ x, y }));
