import type { SawingOptions } from '../../shop/saw/advise-sawing.ts';
import { COMMON_BLADE_THICKNESS_MM, COMMON_KERF_MM, type Kerf } from '../../shop/saw/blades.ts';
import type { SawTable } from '../../shop/saw/board-support.ts';
import type { TableSaw } from '../../shop/saw/saw-depth.ts';
import { Fault } from '../../units/fault.ts';
import { showFine } from '../../units/number-format.ts';
import type { Unit } from '../../units/unit.ts';
import { type OptionValues, optional, ownerFault, parseLengthOption, readLengths } from './option-spec.ts';

export const SAW_OPTIONS = optional({
  '--blade <width>': 'of your band-saw blade: does it turn the line?',
  '--kerf <length>': 'how wide that blade saws (default: 1 mm, about 0.04 in)',
  '--gauge <length>': 'how thick its band is, less than the kerf (default: 0.025 in, about 0.6 mm)',
  '--depth-of-cut <length>': 'of your table saw, blade upright (default: 3 1/8 in, a common 10 in saw)',
  '--depth-at-45 <length>':
    'of your table saw, blade tilted 45° (default: the same length of blade as upright)',
  '--height <length>':
    'that the band saw takes under its raised guide (default: 6 in, a common 14 in band saw)',
  '--table <length x width>':
    'of the band saw, along the feed and across it, such as 16x20 (default: 16x16 in)',
});

type SawOptions = OptionValues<typeof SAW_OPTIONS>;

export function requireBlade(options: SawOptions): void {
  for (const option of ['kerf', 'gauge'] as const)
    if (options[option] !== undefined && options.blade === undefined) throw ownerFault(option, 'blade');
}

/** In the job's unit. */
export function readSaws(options: SawOptions, unit: Unit): SawingOptions {
  const lengths = readLengths(options, SAW_LENGTHS, unit);
  const { blade: width, kerf, gauge, depthOfCut, depthAt45, ...height } = lengths;
  return {
    ...height,
    ...(width !== undefined && { width }),
    ...resolveKerf(kerf, gauge, unit),
    ...resolveTableSaw(depthOfCut, depthAt45),
    ...(options.table !== undefined && { table: parseSawTable(options.table, unit) }),
  };
}

const SAW_LENGTHS = ['blade', 'kerf', 'gauge', 'depthOfCut', 'depthAt45', 'height'] as const;

function resolveKerf(kerfWidth: number | undefined, gauge: number | undefined, unit: Unit): { kerf?: Kerf } {
  if (kerfWidth === undefined && gauge === undefined) return {};
  const kerf = { kerf: kerfWidth ?? COMMON_KERF_MM, bladeThickness: gauge ?? COMMON_BLADE_THICKNESS_MM };
  if (kerf.bladeThickness < kerf.kerf) return { kerf };
  throw new Fault(
    'saw.kerf',
    `a kerf of ${showFine(kerf.kerf, unit)} leaves no room for a band ${showFine(kerf.bladeThickness, unit)} thick. ` +
      'Give both, --kerf wider than --gauge.',
    gauge === undefined ? '--kerf' : '--gauge',
  );
}

function resolveTableSaw(depth: number | undefined, depthAt45: number | undefined): { tableSaw?: TableSaw } {
  if (depth === undefined && depthAt45 === undefined) return {};
  if (depth === undefined) {
    const wording = 'say how deep the saw cuts upright, too: --depth-of-cut 3-1/8in.';
    throw new Fault('saw.depth', wording, '--depth-at-45');
  }
  if (depthAt45 !== undefined && depthAt45 > depth)
    throw new Fault(
      'saw.depth',
      (mm) => `${mm(depthAt45)} at 45° is more than ${mm(depth)} upright. Give the lesser one here.`,
      '--depth-at-45',
    );
  return {
    tableSaw: {
      name: { in: 'this saw', mm: 'this saw' },
      depth,
      ...(depthAt45 !== undefined && { depthAt45 }),
    },
  };
}

function parseSawTable(typed: string, unit: Unit): SawTable {
  const [length, width, ...more] = typed.split(/[x×]/i);
  if (length === undefined || width === undefined || more.length > 0) {
    const wording = `"${typed}" is no size of a table. Write its length along the feed and its width, as in 16x20.`;
    throw new Fault('saw.table', wording, '--table');
  }
  const side = (mm: string): number => parseLengthOption('--table', mm, unit, 'positive');
  return { length: side(length), width: side(width) };
}
