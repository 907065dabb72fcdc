import { figuresOf } from '../curves/figures.ts';
import { distance, type Point } from '../curves/point.ts';
import { JOIN_MM } from '../curves/tolerance.ts';
import { type Rule, readOnRule } from '../units/rule.ts';
import type { Landmark, Part, PartEdge } from './part.ts';

/** The places of a part worth a label, edge by edge, each once: ends, joins, nails and pins, apexes. */
export function landmarks(part: Part): Landmark[] {
  return part.edges.flatMap((edge) => {
    const found: Landmark[] = [];
    const add = (what: Landmark['what'], at: Point): void => {
      if (!found.some((known) => distance(known.at, at) < JOIN_MM)) found.push({ what, at, edge: edge.name });
    };
    for (const [what, at] of placesOf(edge, part.rule)) add(what, at);
    return found;
  });
}

/** An apex first, so that a nail that stands in it does not hide it. */
function placesOf(edge: PartEdge, rule: Rule): [Landmark['what'], Point][] {
  // One whose rise no rule shows is none: a short arc round a corner has a highest point, too.
  const apexes = edge.runs.flatMap((run) => {
    const { apex } = figuresOf(run);
    return apex && readOnRule(apex.rise, rule).mark > 0 ? [apex.at] : [];
  });
  const ends = [edge.runs[0]!.from, edge.runs.at(-1)!.to];
  const joins = edge.runs.slice(1).map((run) => run.from);
  const pins = edge.runs.flatMap((run) => run.pins);
  return [
    ...ends.map((at) => ['end', at] as [Landmark['what'], Point]),
    ...apexes.map((at) => ['apex', at] as [Landmark['what'], Point]),
    ...joins.map((at) => ['join', at] as [Landmark['what'], Point]),
    ...pins.map((at) => ['pin', at] as [Landmark['what'], Point]),
  ];
}
