import { readdirSync, readFileSync } from 'node:fs';
import { parseJob } from '../../src/job/parse/parse-job.ts';
import { makePart } from '../../src/part/make-part.ts';
import type { Part } from '../../src/part/part.ts';
import type { Fault, Faults } from '../../src/units/fault.ts';

const folder = new URL('../../samples/', import.meta.url);

export const SAMPLES = readdirSync(folder)
  .filter((name) => name.endsWith('.yaml'))
  .sort();

/** The hall bench as a folder of jobs. */
export const BENCH = readdirSync(new URL('hall-bench/', folder))
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => `hall-bench/${name}`)
  .sort();

export const sampleText = (name: string): string => readFileSync(new URL(name, folder), 'utf8');
export const partOf = (text: string): Part => makePart(parseJob(text).job);
export const samplePart = (name: string): Part => partOf(sampleText(name));

/** The faults a job gives, as code and key. */
export function faultsOf(text: string): { code: string; key: string | undefined; message: string }[] {
  try {
    partOf(text);
  } catch (error) {
    return (error as Faults).list.map(({ code, key, message }: Fault) => ({ code, key, message }));
  }
  return [];
}
