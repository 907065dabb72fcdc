import { extname } from 'node:path';
import { Fault } from '../../units/fault.ts';

/**
 * That an output is not named as another kind of file: the program that its ending calls up would not open it. A name
 * without an ending promises nothing.
 * @throws Fault `file.other-kind`
 */
export function requireExtension(file: string, ending: '.pdf' | '.svg'): void {
  const found = extname(file).toLowerCase();
  if (found === ending || found === '') return;
  const elsewhere =
    ending === '.pdf' && (found === '.svg' || found === '.dxf')
      ? ` The whole part as ${found.slice(1).toUpperCase()}: fairlath draw.`
      : '';
  throw new Fault(
    'file.other-kind',
    `${file}: what is written is ${ending === '.pdf' ? 'a PDF' : 'an SVG'}. Name a file ending in ${ending}.${elsewhere}`,
  );
}
