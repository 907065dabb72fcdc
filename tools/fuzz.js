// npm run fuzz [-- rounds]: the tests of tests/fuzz and tests/stress, many times over.
import { runTool, setUp } from './setup.js';

/** Twenty rounds are 10,000 mutated jobs: a minute or two. */
const ROUNDS = '20';

setUp();
process.env.FUZZ_ROUNDS = process.argv[2] ?? ROUNDS;
process.exitCode = runTool('vitest/vitest.mjs', ['run', 'tests/fuzz', 'tests/stress'], 'inherit').status ?? 1;
