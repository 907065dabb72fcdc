import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/setup.ts'],
    globalSetup: ['tests/one-folder.ts'],
    // Only a hang is cut off: on a busy machine a browser or a whole program may take its time.
    testTimeout: 120_000,
    hookTimeout: 60_000,
    // Nothing here keeps state between files: sharing what is loaded saves a minute, and both cores work.
    pool: 'threads',
    isolate: false,
    maxWorkers: 2,
  },
});
