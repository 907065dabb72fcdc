import { PAPER_NAMES } from '../../tiling/paper/paper-sizes.ts';
import { option } from './option-spec.ts';

export const forceOption = option('--force', 'replace a file that fairlath did not write');

const JSON_HELP = 'answer with one JSON object for programs: mm, degrees, full precision';
export const jsonOption = option('--json', JSON_HELP);

export const outputOption = (help: string) => option('-o, --output <FILE>', help);
export const pictureOption = (help: string) => option('--picture <FILE.svg>', help);
export const edgeOption = (help: string) => option('--edge <name>', help);

export const everyOption = option(
  '--every <length>',
  'spacing of the stations; both ends are always included (default: a spacing that suits the length)',
);

export const fromOption = option(
  '--from <line>',
  'line to measure from: reference, or chord for the straight line between the ends of the edge (default: reference)',
);

export const paperHelp = (usual: string): string =>
  `paper: ${PAPER_NAMES}, a size such as 13x19in, or a roll such as roll:24in (default: ${usual})`;

export const speciesOption = (whose: string) =>
  option(
    '--species <name>',
    `wood of ${whose}, such as "white oak" (default: the species under stock in the job, or white ash)`,
  );
