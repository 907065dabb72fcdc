import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** What takes longest comes first, so that both workers end together. The order matters to nothing else. */
const LONGEST = [
  'page/page',
  'page/same',
  'fuzz/jobs',
  'check/take-off',
  'cli/one-process',
  'cli/commands',
  'fuzz/command-lines',
  'part/width',
  'export/register-marks',
  'fuzz/disk',
  'docs/making-a-part',
  'curves/nail-for-apex',
].map((name) => join(fileURLToPath(new URL('.', import.meta.url)), 'tests', `${name}.test.ts`));

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rest = await super.sort(files);
    const first = LONGEST.flatMap((name) => rest.filter(({ moduleId }) => moduleId === name));
    return [...first, ...rest.filter((file) => !first.includes(file))];
  }
}

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/setup.ts'],
    globalSetup: ['tests/one-folder.ts'],
    sequence: { sequencer: LongestFirst },
    // Only a hang is cut off: on a busy machine a browser or a whole program may take its time.
    testTimeout: 120_000,
    hookTimeout: 60_000,
    // Nothing here keeps state between files: sharing what is loaded saves a minute, and both cores work.
    pool: 'threads',
    isolate: false,
    maxWorkers: 2,
  },
});
