import { describe, expect, test } from 'vitest';
import { layeringComplaints } from './layering.ts';
import { readSources } from './source.ts';

// That no core file touches the browser or Node's globals is left to the type check: tsconfig.json has no DOM
// library, and tsconfig.core.json has no Node types either.

const complaintsAbout = (files: Record<string, string>): string[] =>
  layeringComplaints(Object.entries(files).map(([path, text]) => ({ path, text })));

test('the house is layered: imports run downward, without cycles', () => {
  const sources = readSources('src').filter(({ path }) => path.endsWith('.ts'));
  expect(sources.length).toBeGreaterThan(0);
  expect(layeringComplaints(sources)).toEqual([]);
});

describe('an import that does not run downward is found, however it is written', () => {
  test.each([
    ['static', `import { parseJob } from '../job/parse.ts';`],
    ['over several lines', `import {\n  parseJob,\n} from '../job/parse.ts';`],
    ['for its side effects', `import '../job/parse.ts';`],
    ['of a type', `import type { Job } from '../job/job.ts';`],
    ['of a type, in place', `export type J = import('../job/job.ts').Job;`],
    ['re-export', `export * from '../job/job.ts';`],
    ['dynamic', `const late = () => import('../job/parse.ts');`],
  ])('%s', (_, text) => {
    expect(complaintsAbout({ 'src/curves/arc.ts': text })).toEqual([
      expect.stringMatching(/^src\/curves\/arc\.ts imports src\/job\/\w+\.ts: imports run downward only$/),
    ]);
  });
});

describe('these are found', () => {
  test.each([
    ['neighbours that use each other', 'src/shop/saw.ts', `import '../tiling/grid.ts';`],
    ['the page using the command line', 'src/page/main.ts', `import '../cli/show.ts';`],
    ['the core using the API file', 'src/part/part.ts', `import '../index.ts';`],
    ['Node in the core', 'src/export/pdf.ts', `import { readFileSync } from 'node:fs';`],
    ['Node in the core, by its bare name', 'src/units/length.ts', `import path from 'path';`],
    ['a file from outside src', 'src/job/parse.ts', `import '../../tests/fixtures/leg.ts';`],
    ['a folder that is on no floor', 'src/helpers/misc.ts', ''],
    ['a folder of the curves that is on no layer', 'src/curves/helpers/misc.ts', ''],
    ['numeric using geometry', 'src/curves/numeric/newton.ts', `import '../geometry/point.ts';`],
    ['geometry using the curve', 'src/curves/geometry/pieces/piece.ts', `import '../../curve.ts';`],
    ['a plain curve using the strip', 'src/curves/simple/arc.ts', `import '../elastica/bow.ts';`],
    ['arcs using fairness', 'src/curves/arcs/biarc.ts', `import '../fairness/remark.ts';`],
    ['an API file with code of its own', 'src/index.ts', 'export const answer = 42;'],
    ['an API file that gives out the command line', 'src/index.ts', `export * from './cli/main.ts';`],
  ])('%s', (_, path, text) => {
    expect(complaintsAbout({ [path]: text })).toHaveLength(1);
  });

  test('a cycle of three files', () => {
    expect(
      complaintsAbout({
        'src/curves/arc.ts': `import './fit.ts';`,
        'src/curves/fit.ts': `import type { Path } from './path.ts';`,
        'src/curves/path.ts': `export { arc } from './arc.ts';`,
      }),
    ).toEqual([
      'import cycle: src/curves/arc.ts -> src/curves/fit.ts -> src/curves/path.ts -> src/curves/arc.ts',
    ]);
  });
});

test('imports that run downward, packages, Node in the command line and words in comments pass', () => {
  expect(
    complaintsAbout({
      'src/index.ts': `export { parseJob } from './job/parse.ts';\nexport type { Job } from './job/job.ts';`,
      'src/job/parse.ts': `import { parseDocument } from 'yaml';\nimport type { Job } from './job.ts';`,
      'src/job/job.ts': `// import '../cli/main.ts';\nimport type { Rule } from '../units/rule.ts';`,
      'src/cli/main.ts': `import { readFileSync } from 'node:fs';\nimport { parseJob } from '../job/parse.ts';`,
    }),
  ).toEqual([]);
});
