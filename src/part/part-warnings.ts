import { pinForces, pulling } from '../curves/elastica/pin-reactions.ts';
import type { Box } from '../curves/geometry/bounds.ts';
import type { Job } from '../job/job.ts';
import { itemAt } from '../units/checked.ts';
import type { Warning } from '../units/fault.ts';
import { type Rule, showLength } from '../units/rule.ts';
import type { PartEdge } from './part.ts';

/** One for each batten with nails that would have to pull. */
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
  const listed = stations.slice(0, MAX_LISTED).join(', ');
  const more = stations.length > MAX_LISTED ? ` and ${stations.length - MAX_LISTED} more` : '';
  const message =
    `the batten of "${edge}" lifts off its nail${several ? 's' : ''} at station${several ? 's' : ''} ${listed}${more}. ` +
    `Put ${several ? 'these nails' : 'this nail'} on the other side of the batten.`;
  return { code: 'batten.nail-pulls', message };
}

/** Stock that is large enough for the finished part but not for the saw line around it. */
export function stockWarnings({ stock, sawAllowance, rule }: Job, withSaw: Box): Warning[] {
  const needs = { length: withSaw.right - withSaw.left, width: withSaw.top - withSaw.bottom };
  return (['length', 'width'] as const).flatMap((side) => {
    const has = stock?.[side];
    if (has === undefined || needs[side] <= has) return [];
    const message =
      `the part needs a ${side} of ${showLength(needs[side], rule)} with its saw allowance of ${showLength(sawAllowance, rule)}, ` +
      `but the stock has ${showLength(has, rule)}. The finished part fits. Saw closer to the finished line there.`;
    return { code: `stock.no-saw-${side}`, message };
  });
}
