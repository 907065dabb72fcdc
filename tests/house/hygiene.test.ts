import { describe, expect, test } from 'vitest';
import manifest from '../../package.json' with { type: 'json' };
import { hygieneComplaints, unpinned } from './hygiene.ts';
import { readSources } from './source.ts';

test('the project keeps its own rules', () => {
  const sources = readSources('');
  expect(sources.map(({ path }) => path)).toEqual(expect.arrayContaining(['package-lock.json', '.npmrc']));
  expect(hygieneComplaints(sources)).toEqual([]);
});

test('every package has one exact version', () => {
  expect(unpinned(manifest)).toEqual([]);
});

// Bad words are put together here, so that the rules do not find them in this file.
const join = (...halves: string[]): string => halves.join('');

describe('a breach of each rule is found', () => {
  test.each([
    ['any as a type', 'src/job/job.ts', `const x: any = 1;`],
    ['any deep in a type', 'tests/job/job.test.ts', `const f = (x: Map<string, any[]>) => x;`],
    ['a silenced type check', 'src/job/job.ts', join('// @ts', '-ignore\nlet x = 1;')],
    ['the console in the core', 'src/part/part.ts', 'console.log(1);'],
    ['work left for later', 'tools/build.js', join('// TO', 'DO: the rest')],
    ['a file too long to read', 'src/curves/fit.ts', '// line\n'.repeat(301)],
    ['a straight apostrophe', 'src/part/ends.ts', `const x = "the part's end";`],
    ['a straight apostrophe of several', 'src/part/ends.ts', `const x = "the parts' ends";`],
    ['one behind what a template puts in', 'src/part/ends.ts', join('const x = `the $', "{part}'s end`;")],
    ['a package server in the lock', 'package-lock.json', '"resolved": "x.tgz"'],
    ['a package server in the settings', '.npmrc', 'registry=x'],
    ['a path of one machine', 'README.md', join('see /ho', 'me/someone/fairlath')],
    ['a path of one machine, in quotes', 'tests/cli/print.test.ts', join(`const out = '/tm`, `p/out.pdf';`)],
    ['a path of one machine, with backslashes', 'samples/leg.yaml', join('C:', '\\Users\\someone')],
  ])('%s', (_, path, text) => {
    expect(hygieneComplaints([{ path, text }])).toEqual([expect.stringContaining(path)]);
  });

  test.each(['^1.2.3', '~1.2.3', '>=1', 'latest', '1.x', '*'])('a package at %s', (version) => {
    expect(unpinned({ devDependencies: { wood: version } })).toEqual([`wood ${version}`]);
  });
});

test('ordinary text passes: "any" as a word, a file of 300 lines, the console in the command line', () => {
  expect(
    hygieneComplaints([
      { path: 'src/job/job.ts', text: '/** Takes any length, and/or none. */\nconst any = 1;' },
      { path: 'src/curves/fit.ts', text: '// line\n'.repeat(300) },
      { path: 'src/cli/show.ts', text: 'console.log(1);' },
      { path: 'src/units/length.ts', text: `/** The rule's own. */\nconst x = "2' 4 1/2";` },
      { path: 'package-lock.json', text: '"integrity": "sha512-a/tmp/b+c"' },
    ]),
  ).toEqual([]);
});
