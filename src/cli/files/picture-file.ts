import type { Drawing } from '../../export/drawing/drawing.ts';
import { writeFileAtomic } from './atomic-write.ts';
import { requireOutput } from './output-file.ts';

/** Writes the picture that --picture names, if any. The code that draws it is loaded only then. */
export async function writePicture(
  { picture, force }: { readonly picture?: string; readonly force?: boolean },
  inputs: readonly (string | undefined)[],
  title: string,
  compose: () => Promise<Drawing>,
): Promise<void> {
  if (picture === undefined) return;
  requireOutput(picture, { ending: '.svg', inputs, force });
  const { writeSvg } = await import('../../export/writers/svg.ts');
  writeFileAtomic(picture, writeSvg(await compose(), title));
}
