#!/usr/bin/env node
import { existsSync } from 'node:fs';

const built = new URL('../dist/cli.js', import.meta.url);
if (existsSync(built)) {
  await import(built.href);
} else {
  console.error('fairlath is not built yet. Run "npm run build" once in its folder, then try again.');
  process.exitCode = 1;
}
