import { Option } from 'commander';
import { PAPER_NAMES } from '../../tiling/paper/paper-sizes.ts';

/** Options that several commands take, each said in the same words everywhere. */

/** Only what we wrote is replaced unasked. */
export const forceOption = (): Option => new Option('--force', 'replace a file that fairlath did not write');

export const jsonOption = (): Option =>
  new Option('--json', 'answer with one JSON object for programs: mm, degrees, full precision');

export const outputOption = (what: string): Option => new Option('-o, --output <FILE>', what);

export const pictureOption = (what: string): Option => new Option('--picture <FILE.svg>', what);

export const edgeOption = (what: string): Option => new Option('--edge <name>', what);

export const everyOption = (): Option =>
  new Option(
    '--every <length>',
    'a station at every whole multiple of this, and at both ends (default: a spacing that suits the length)',
  );

export const fromOption = (): Option =>
  new Option(
    '--from <line>',
    'what stations and offsets are measured from: reference, the job’s reference line, or chord, the straight ' +
      'line between the edge’s own ends (default: reference)',
  );

export const paperOption = (usual: string): Option =>
  new Option(
    '--paper <size>',
    `${PAPER_NAMES}, a size such as 13x19in, or a roll such as roll:24in (default: ${usual})`,
  );

export const speciesOption = (whose: string): Option =>
  new Option(
    '--species <name>',
    `wood of ${whose}, such as "white oak" (default: that of the job’s stock, else white ash)`,
  );
