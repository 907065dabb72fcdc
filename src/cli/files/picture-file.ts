import type { Drawing } from '../../export/drawing/drawing.ts';
import { mustBeFree, writeWhole } from './atomic-files.ts';
import { mustEnd } from './file-extension.ts';
import { isOurSvg } from './own-files.ts';

/** A picture asked for beside what is told, and what it must not be written over. */
export interface PictureAsk {
  readonly output: string;
  readonly inputs: readonly (string | undefined)[];
  readonly force: boolean | undefined;
}

/**
 * Draws a picture into a file of its own; what draws it is loaded only then.
 * @throws Fault as `mustBeFree`, `writeWhole` and `compose`
 */
export async function writePicture(
  { output, inputs, force }: PictureAsk,
  title: string,
  compose: () => Promise<Drawing>,
): Promise<void> {
  for (const input of inputs) mustBeFree(output, input, isOurSvg, force ?? false);
  mustEnd(output, '.svg');
  const { writeSvg } = await import('../../export/writers/svg.ts');
  writeWhole(output, writeSvg(await compose(), title));
}
