// Lists the offsets of every edge of a job, in mm.
import { readFileSync } from 'node:fs';
import { makePart, offsetsBeside, parseJob, REFERENCE_LINE, stationsOf } from 'fairlath';

const text = readFileSync(new URL('../hall-bench-leg.yaml', import.meta.url), 'utf8');
const part = makePart(parseJob(text).job);

for (const edge of part.edges) {
  console.log(edge.name);
  for (const station of stationsOf(edge, REFERENCE_LINE, part.rule.unit))
    for (const { offset } of offsetsBeside(edge, station))
      console.log(`  ${station.toFixed(1).padStart(7)}  ${offset.toFixed(3)}`);
}
