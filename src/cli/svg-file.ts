import type { Drawing } from '../export/drawing.ts';
import { mustEnd } from './ending.ts';
import { mustBeFree, writeWhole } from './files.ts';
import { isOurSvg } from './our-files.ts';

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
  const { writeSvg } = await import('../export/svg.ts');
  writeWhole(output, writeSvg(await compose(), title));
}
