import { pinForces, pulling } from '../curves/elastica/pin-reactions.ts';
import type { Box } from '../curves/geometry/bounds.ts';
import type { Job } from '../job/job.ts';
import { itemAt } from '../units/checked.ts';
import type { Warning } from '../units/fault.ts';
import { type Rule, showLength } from '../units/rule.ts';
import type { PartEdge } from './part.ts';

/** One for a strip: its nails would have to pull where they are. */
export const nailWarnings = (edges: readonly PartEdge[], rule: Rule): Warning[] =>
  edges.flatMap(({ name, runs }) =>
    runs.flatMap(({ kind, exact, pins }) => {
      if (kind !== 'batten' || !exact.every(({ type }) => type === 'elastica')) return [];
      const stations = pulling(pinForces(exact)).map((i) => showLength(itemAt(pins, i).x, rule));
      return stations.length === 0 ? [] : [nailWarning(name, stations)];
    }),
  );

const MAX_LISTED = 5;

function nailWarning(edge: string, stations: readonly string[]): Warning {
  const several = stations.length > 1;
  const told = stations.slice(0, MAX_LISTED).join(', ');
  const more = stations.length > MAX_LISTED ? ` and ${stations.length - MAX_LISTED} more` : '';
  const message =
    `the strip of "${edge}" springs away from ${several ? 'nails' : 'a nail'} under it at station${several ? 's' : ''} ${told}${more}. ` +
    `Put ${several ? 'these nails' : 'this nail'} on the other side of the strip.`;
  return { code: 'batten.nail-pulls', message };
}

/** Stock that takes the finished part but not the saw line around it. */
export function stockWarnings({ stock, sawAllowance, rule }: Job, withSaw: Box): Warning[] {
  const needs = { length: withSaw.right - withSaw.left, width: withSaw.top - withSaw.bottom };
  return (['length', 'width'] as const).flatMap((side) => {
    const has = stock?.[side];
    if (has === undefined || needs[side] <= has) return [];
    const message =
      `with ${showLength(sawAllowance, rule)} left for the saw the part needs ${showLength(needs[side], rule)} of ${side}; ` +
      `the stock has ${showLength(has, rule)}. The finished part still fits; saw closer to the line there.`;
    return { code: `stock.no-saw-${side}`, message };
  });
}
