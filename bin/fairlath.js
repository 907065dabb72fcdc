#!/usr/bin/env node
import { existsSync } from 'node:fs';
import module from 'node:module';

// Node 22 and newer keep what they compiled, so that the next start is quicker.
module.enableCompileCache?.();

const built = new URL('../dist/cli.js', import.meta.url);
if (existsSync(built)) {
  await import(built.href);
} else {
  console.error('fairlath is not built yet. Run "npm run build" once in its folder, then try again.');
  process.exitCode = 1;
}
