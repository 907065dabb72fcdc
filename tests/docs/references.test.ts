import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ALLOWANCE_KEYS, END_KEYS, JOB_KEYS, STOCK_KEYS } from '../../src/job/job-keys.ts';
import { JOINT_KINDS, JOINT_NAMES } from '../../src/job/joints/joint-kinds.ts';
import { STEP_NAMES, stepKeys } from '../../src/job/steps/step-kinds.ts';
import { freshFolder, root } from '../cli/run.ts';
import { partOf, sampleText } from '../part/jobs.ts';

const page = (name: string): string => readFileSync(join(root, name), 'utf8');
const blocks = (text: string, language: string): string[] =>
  [...text.matchAll(new RegExp(`^\`\`\`${language}\n([\\s\\S]*?)^\`\`\``, 'gm'))].map(([, body]) => body!);

describe('the job file, told', () => {
  const text = page('docs/job-file.md');

  test('every key that a job may hold is there', () => {
    const vocabularies = [JOB_KEYS, STOCK_KEYS, ALLOWANCE_KEYS, END_KEYS];
    const ofSteps = STEP_NAMES.flatMap(stepKeys);
    const ofJoints = Object.values(JOINT_KINDS).flatMap(({ keys }) => keys);
    const known = [...vocabularies.flat(), ...STEP_NAMES, ...ofSteps, ...JOINT_NAMES, ...ofJoints];
    const quoted = [...text.replace(/^```[\s\S]*?^```/gm, '').matchAll(/`([^`]+)`/g)]
      .map(([, code]) => code)
      .join(' ');
    expect(known.filter((key) => !new RegExp(`(?<![\\w-])${key}(?![\\w-])`).test(quoted))).toEqual([]);
  });

  test('its first job is the sample leg, and its ends and joints go with that', () => {
    const [job, beside] = blocks(text, 'yaml');
    expect(partOf(job!).shape).toEqual(partOf(sampleText('hall-bench-leg.yaml')).shape);
    expect(partOf(`${job}\n${beside}`).joints).toHaveLength(2);
  });
});

test('every command of the prints and drawings runs as it stands on the sample leg', () => {
  const folder = freshFolder();
  copyFileSync(join(root, 'samples', 'hall-bench-leg.yaml'), join(folder, 'my-leg.yaml'));
  const commands = blocks(page('docs/prints-and-drawings.md'), 'bash').join('');
  expect(commands.match(/^fairlath /gm)!.length).toBeGreaterThan(8);
  const script = `fairlath() { "${process.execPath}" "${join(root, 'bin', 'fairlath.js')}" "$@"; }\n${commands}`;
  const env = { ...process.env, XDG_CONFIG_HOME: folder };
  const { status, stderr } = spawnSync('bash', ['-ec', script], { cwd: folder, env, encoding: 'utf8' });
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  expect(existsSync(join(folder, 'my-leg.pdf'))).toBe(true);
}, 60_000);

test('every link of the README to another file of the project leads somewhere', () => {
  const links = [...page('README.md').matchAll(/\]\((?!https?:)([^)#]+)[^)]*\)/g)].map(([, to]) => to!);
  expect(links.length).toBeGreaterThan(8);
  expect(links.filter((to) => !existsSync(join(root, to)))).toEqual([]);
});
