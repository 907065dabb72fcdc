import type { Drawing } from '../../export/drawing/drawing.ts';
import { writeFileAtomic } from './atomic-write.ts';
import { requireOutput } from './output-file.ts';

/** The options of a command that draws a picture. */
export interface PictureOptions {
  readonly picture?: string;
  readonly force?: boolean;
}

/**
 * Writes the picture that --picture names, if any. The code that draws it is loaded only then.
 * @param inputs the files that the command reads, which are never replaced
 * @throws Fault those of `requireOutput`, `writeFileAtomic` and `compose`
 */
export async function writePicture(
  { picture, force }: PictureOptions,
  inputs: readonly (string | undefined)[],
  title: string,
  compose: () => Promise<Drawing>,
): Promise<void> {
  if (picture === undefined) return;
  requireOutput(picture, { ending: '.svg', inputs, force });
  const { writeSvg } = await import('../../export/writers/svg.ts');
  writeFileAtomic(picture, writeSvg(await compose(), title));
}
