import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { browserPath } from '../tools/browser.js';

/** One folder holds what all tests write, so that nothing of it is left behind. */
export function setup(): () => void {
  // Before any worker starts: of two that unpack at a time one would wait for nothing.
  browserPath();
  const folder = mkdtempSync(join(tmpdir(), 'fairlath-tests-'));
  process.env.FAIRLATH_TESTS = folder;
  return () => rmSync(folder, { recursive: true, force: true });
}
