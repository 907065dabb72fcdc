import { describe, expect, test } from 'vitest';
import { figuresOf } from '../../src/curves/measurements.ts';
import { composePicture } from '../../src/export/pictures/part-picture.ts';
import { streamPatternPdf } from '../../src/export/writers/pdf.ts';
import { writeSvg } from '../../src/export/writers/svg.ts';
import { PlacedFault } from '../../src/job/job-faults.ts';
import { parseJob } from '../../src/job/parse/parse-job.ts';
import { STARTER_JOB } from '../../src/job/starter-job.ts';
import { makePart } from '../../src/part/make-part.ts';
import { offsetsAt } from '../../src/part/offsets.ts';
import type { Part } from '../../src/part/part.ts';
import { parsePaper } from '../../src/tiling/paper/paper-sizes.ts';
import { layOut } from '../../src/tiling/tile.ts';
import { fontBytes } from '../export/font.ts';
import { BENCH, SAMPLES, sampleText } from '../part/jobs.ts';
import { anyJob } from '../stress/part-cases.ts';
import { expectFinite, expectHelpful, faultsOf } from './answers.ts';
import { mutated } from './mutate.ts';
import { Random, ROUNDS } from './random.ts';

const JOBS = [STARTER_JOB, ...[...SAMPLES, ...BENCH].map(sampleText)];
const A_ROUND = 500;
/** One job in so many is none of ours, but of any curves and shoulders. */
const ANY = 4;
/** One good job in so many is printed: that takes as long as a hundred are read. */
const PRINTED = 25;

/** Everything but the sheets. */
function workOut(text: string): Part {
  const part = makePart(parseJob(text).job);
  for (const edge of part.edges) {
    expectFinite(edge.runs.map(figuresOf));
    const { left, right } = part.bounds;
    for (let i = 0; i <= 4; i++) expectFinite(offsetsAt(edge, left + ((right - left) * i) / 4));
  }
  expectFinite(part);
  return part;
}

function print(part: Part): void {
  expect(writeSvg(composePicture(part), part.name)).not.toMatch(/NaN|Infinity|undefined/);
  const layout = layOut(part, { paper: parsePaper('a4'), margin: 12.7, overlap: 15, turn: 0, maxSheets: 40 });
  expectFinite(layout);
  let bytes = 0;
  streamPatternPdf(part, layout, { font: fontBytes(), cover: true }, (chunk) => {
    bytes += chunk.length;
  });
  expect(bytes).toBeGreaterThan(1000);
}

describe('a job with anything wrong in it', () => {
  test('is worked out, or every mistake is told with its place and cure', () => {
    let good = 0;
    for (let i = 0; i < A_ROUND * ROUNDS; i++) {
      const random = new Random(i);
      const text = mutated(i % ANY === 0 ? anyJob(random) : random.pick(JOBS), random);
      const told = `job ${i} of this seed:\n${text}`;
      try {
        const faults = faultsOf(() => {
          const part = workOut(text);
          if (good++ % PRINTED === 0) print(part);
        });
        for (const fault of faults) {
          expectHelpful(fault);
          if (fault.code.startsWith('job.')) expect(fault).toBeInstanceOf(PlacedFault);
        }
      } catch (error) {
        throw new Error(told, { cause: error });
      }
    }
    // Both kinds are among them, or nothing was tried.
    expect(good).toBeGreaterThan((A_ROUND * ROUNDS) / 20);
    expect(good).toBeLessThan((A_ROUND * ROUNDS * 19) / 20);
  }, 600_000);
});
