import type { Drawing } from '../../export/drawing/drawing.ts';
import { requireWritable, writeFileAtomic } from './atomic-files.ts';
import { requireExtension } from './file-extension.ts';
import { isOwnSvg } from './own-files.ts';

/** A picture asked for beside what is told, and what it must not be written over. */
export interface PictureRequest {
  readonly output: string;
  readonly inputs: readonly (string | undefined)[];
  readonly force: boolean | undefined;
}

/**
 * Draws a picture into a file of its own; what draws it is loaded only then.
 * @throws Fault as `mustBeFree`, `writeWhole` and `compose`
 */
export async function writePicture(
  { output, inputs, force }: PictureRequest,
  title: string,
  compose: () => Promise<Drawing>,
): Promise<void> {
  for (const input of inputs) requireWritable(output, input, isOwnSvg, force ?? false);
  requireExtension(output, '.svg');
  const { writeSvg } = await import('../../export/writers/svg.ts');
  writeFileAtomic(output, writeSvg(await compose(), title));
}
