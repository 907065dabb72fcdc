import { copyFileSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { SAMPLES } from '../part/jobs.ts';
import { fairlath, freshFolder, root } from './run.ts';

const COMMANDS = ['new', 'show', 'print', 'offsets', 'batten', 'stock', 'saw', 'card', 'check', 'take-off', 'printer'];
