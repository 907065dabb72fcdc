import { JobFaults } from '../../src/job/job-faults.ts';
import { parseJob } from '../../src/job/parse/parse-job.ts';

export interface Found {
  readonly code: string;
  readonly key: string | undefined;
  readonly line: number;
  readonly column: number;
  readonly message: string;
}

/** The faults of a job text, flat; none if it is a job. */
export function faultsOf(text: string): Found[] {
  try {
    parseJob(text);
    return [];
  } catch (error) {
    if (!(error instanceof JobFaults)) throw error;
    return error.list.map(({ code, key, place, message }) => ({ code, key, ...place, message }));
  }
}
