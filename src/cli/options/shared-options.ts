import { PAPER_NAMES } from '../../tiling/paper/paper-sizes.ts';
import { type OptionSpec, option } from './option-spec.ts';

// Options that several commands take, in the same words everywhere.

/** Without it only files that fairlath wrote are replaced. */
export const forceOption = option('--force', 'replace a file that fairlath did not write');

export const jsonOption = option(
  '--json',
  'answer with one JSON object for programs: mm, degrees, full precision',
);

export const outputOption = (help: string): OptionSpec<'-o, --output <FILE>', 'optional'> =>
  option('-o, --output <FILE>', help);

export const pictureOption = (help: string): OptionSpec<'--picture <FILE.svg>', 'optional'> =>
  option('--picture <FILE.svg>', help);

export const edgeOption = (help: string): OptionSpec<'--edge <name>', 'optional'> =>
  option('--edge <name>', help);

export const everyOption = option(
  '--every <length>',
  'a station at every whole multiple of this, and at both ends (default: a spacing that suits the length)',
);

export const fromOption = option(
  '--from <line>',
  'what stations and offsets are measured from: reference, the job’s reference line, or chord, the straight ' +
    'line between the edge’s own ends (default: reference)',
);

/** Its help names the paper that is usual. */
export const paperHelp = (usual: string): string =>
  `${PAPER_NAMES}, a size such as 13x19in, or a roll such as roll:24in (default: ${usual})`;

export const speciesOption = (whose: string): OptionSpec<'--species <name>', 'optional'> =>
  option(
    '--species <name>',
    `wood of ${whose}, such as "white oak" (default: that of the job’s stock, else white ash)`,
  );
