import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { fairlath, folderWithSamples, freshFolder, root } from './run.ts';

/** A command line that is refused: the stable code of its fault and, where there is one, the option it is placed at. */
export type Mistake = readonly [args: readonly string[], code: string, key?: string];

/** The command ends with exactly this fault. It prints no answer and no stack trace, and writes no file. */
export function expectMistake([args, code, key]: Mistake): void {
  const folder = folderWithSamples();
  const before = folder.files();
  const { err, ...answer } = fairlath(args, folder.path);
  expect(answer).toEqual({ code: 2, out: '', faults: [key === undefined ? { code } : { code, key }] });
  expect(err).toMatch(/^(error|[\w./-]+(:\d+:\d+)?): /);
  expect(err).not.toMatch(/\n\s+at |node:internal|TypeError/);
  expect(folder.files()).toEqual(before);
}

/** A test for each of them. */
export function testMistakes(mistakes: readonly Mistake[]): void {
  for (const mistake of mistakes) {
    const [args, code] = mistake;
    test(`refuses ${typed(args)} with ${code}`, () => expectMistake(mistake));
  }
}

const typed = (args: readonly string[]): string =>
  args.map((word) => (/^[\w./:,=×-]+$/.test(word) ? word : `'${word}'`)).join(' ');

/**
 * Compares all that a command says with its reviewed file of words, tests/words/COMMAND.txt: the help, then the answer
 * to each command line, one after the other in a folder with the samples and these files. `npx vitest run -u` writes
 * the files of words again.
 */
export async function expectWords(
  name: string,
  lines: readonly (readonly string[])[],
  files: Readonly<Record<string, string>> = {},
): Promise<void> {
  const { path } = folderWithSamples();
  for (const [name, content] of Object.entries(files)) writeFileSync(join(path, name), content);
  const settings = freshFolder();
  const said = lines.map((args) => {
    const { out, err } = fairlath(args, path, settings);
    return `$ fairlath ${typed(args)}\n${err}${out}`;
  });
  const text = said.join('\n').replaceAll(settings, 'SETTINGS').replaceAll(path, 'FOLDER');
  await expect(text).toMatchFileSnapshot(join(root, 'tests', 'words', `${name}.txt`));
}
