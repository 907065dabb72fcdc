import type { Job } from '../job/job.ts';
import type { FoundJob, SourcePositions } from '../job/job-faults.ts';
import { findPosition, JobFaults, PlacedFault } from '../job/job-faults.ts';
import { JOB_KEYS } from '../job/job-keys.ts';
import { closestName } from '../job/parse/did-you-mean.ts';
import { type PossiblyUnread, parseJob } from '../job/parse/parse-job.ts';
import { collectFaults, type Fault, faultsOf } from '../units/fault.ts';
import { makeEdgeRuns } from './make-edges.ts';
import { makePart } from './make-part.ts';
import type { Part } from './part.ts';

/** Reads a job and works it out. @throws JobFaults every mistake that is known beside the others, by its place */
export function readPart(text: string): {
  readonly job: Job;
  readonly part: Part;
  readonly places: SourcePositions;
} {
  const { job, places } = parseOrAdd(text);
  try {
    return { job, part: makePart(job), places };
  } catch (error) {
    const [first, ...rest] = place(faultsOf(error), places);
    throw first ? new JobFaults([first, ...rest], { job, places }) : error;
  }
}

function parseOrAdd(text: string): ReturnType<typeof parseJob> {
  try {
    return parseJob(text);
  } catch (error) {
    if (!(error instanceof JobFaults) || !error.found) throw error;
    const { list, found } = error;
    throw new JobFaults([...list, ...place(faultsBeside(list, found), found.places)], found);
  }
}

const place = (faults: readonly Fault[], places: SourcePositions): PlacedFault[] =>
  faults.map((fault) => {
    return new PlacedFault(fault, findPosition(places, fault.key ?? '') ?? { line: 1, column: 1 });
  });

/** Mistakes of what could be read: none of an edge, the ends, the stock or the allowance that has a mistake already. */
function faultsBeside(list: readonly PlacedFault[], found: FoundJob): readonly Fault[] {
  const isWrong = (start: string): boolean => list.some(({ key = '' }) => key.startsWith(start));
  const { rule, edges, ends, stock, laminate, joints, sawAllowance } = found.job as PossiblyUnread<Job>;
  // A misspelt name at the top may have been any of the others.
  const misspelt = list.some(
    ({ code, key = '' }) => code === 'job.unknown-key' && closestName(key, JOB_KEYS),
  );
  if (!rule || !edges || misspelt) return [];
  if (isWrong('edges') || isWrong('ends')) {
    const faults: Fault[] = [];
    for (const edge of edges) if (!isWrong(edge.key)) makeEdgeRuns(edge, faults);
    return faults;
  }
  // On another side than the reference face a joint needs the thickness.
  const known = (joints ?? []).filter(({ face }) => face === undefined || !isWrong('stock'));
  const sound = { part: '', rule, quantity: 1, edges, joints: known };
  return collectFaults(() => {
    makePart({
      ...sound,
      sawAllowance: isWrong('allowance') ? 0 : (sawAllowance ?? 0),
      ...(ends && { ends }),
      // How it is laminated says what the stock is for.
      ...(stock && !isWrong('stock') && !isWrong('laminate') && { stock }),
      ...(laminate && { laminate }),
    });
  });
}
