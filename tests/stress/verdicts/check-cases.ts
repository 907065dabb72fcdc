import { checkEdge, type EdgeCheck } from '../../../src/check/check-edge.ts';
import type { StationReading } from '../../../src/check/readings/read-readings.ts';
import { suspectReadings } from '../../../src/check/suspect-readings.ts';
import { REFERENCE_LINE } from '../../../src/part/offsets.ts';
import type { Part } from '../../../src/part/part.ts';
import { graduationMm } from '../../../src/units/graduation.ts';
import { readOnRule } from '../../../src/units/rule.ts';
import { normal, seeded, stationsOf, trueReadings } from '../../check/bench.ts';
import { partOf } from '../../part/jobs.ts';

/*
 * Sawn parts of known truth, read by hand: true to the line, set off or crooked against the rule, with another rise than
 * the job's, or with one reading wrong.
 */

const RISES = [1, 3, 6] as const;
const arch = (kind: string, rise: number): Part =>
  partOf(
    `part: Rail\nunits: in\nedges:\n  top:\n    - from: [0, 2]\n    - ${kind}: [30, 2]\n      ${kind === 'batten' ? `through: [13, ${2 + rise}]` : `rise: ${rise}`}\n`,
  );

export interface SawnSet {
  readonly readings: readonly number[];
  readonly hands: readonly number[];
  readonly seeds: number;
  /** mm. */
  readonly wrongBy?: number;
  readonly shift?: number;
  /** mm over the length. */
  readonly turn?: number;
  /** How much higher the middle was sawn, mm. */
  readonly rise?: number;
}

export interface SawnCase {
  readonly check: EdgeCheck;
  readonly codes: readonly string[];
  /** Stations that a message calls wrong. */
  readonly blamed: readonly number[];
  readonly wrongStation: number | undefined;
}

export function* sawnCases({
  readings,
  hands,
  seeds,
  wrongBy = 0,
  shift = 0,
  turn = 0,
  rise = 0,
}: SawnSet): Generator<SawnCase> {
  for (const kind of ['arc', 'bow', 'batten'])
    for (const height of RISES) {
      const part = arch(kind, height);
      const { rule } = part;
      const [edge] = part.edges;
      for (const count of readings)
        for (const hand of hands)
          for (let seed = 1; seed <= seeds; seed++) {
            const random = seeded(104729 * seed + 17 * count + 1000 * height + Math.round(100 * hand));
            const stations = stationsOf(edge!, (30 * 25.4) / (count - 1));
            const wrong = wrongBy > 0 ? Math.floor(random() * count) : -1;
            const way = random() < 0.5 ? -1 : 1;
            const taken = trueReadings(edge!, stations).map(({ station, offset }, i): StationReading => {
              const u = i / (count - 1);
              const sawn = shift + turn * u + rise * 4 * u * (1 - u);
              const off = sawn + hand * normal(random) + (i === wrong ? way * wrongBy : 0);
              return { station, offset: readOnRule(offset + off, rule).mark };
            });
            const options = { base: REFERENCE_LINE, tolerance: graduationMm(rule), beforeSanding: false };
            const check = checkEdge(part, edge!, taken, options);
            const warnings = suspectReadings(part, edge!, check, taken, options);
            const blamed = stations.filter((station) =>
              warnings.some(
                ({ code, message }) =>
                  code === 'check.odd-reading' &&
                  message.includes(`station ${readOnRule(station, rule).text}"`),
              ),
            );
            yield {
              check,
              codes: warnings.map(({ code }) => code),
              blamed,
              wrongStation: taken[wrong]?.station,
            };
          }
    }
}
