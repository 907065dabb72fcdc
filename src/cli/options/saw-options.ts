import type { SawingOptions } from '../../shop/saw/advise-sawing.ts';
import { COMMON_BLADE_THICKNESS_MM, COMMON_KERF_MM, type Kerf } from '../../shop/saw/blades.ts';
import type { SawTable } from '../../shop/saw/board-support.ts';
import type { TableSaw } from '../../shop/saw/saw-depth.ts';
import { Fault } from '../../units/fault.ts';
import { showFine } from '../../units/number-format.ts';
import type { Unit } from '../../units/unit.ts';
import { type OptionValues, optional, ownerFault, parseLengthOption, readLengths } from './option-spec.ts';

export const SAW_OPTIONS = optional({
  '--blade <width>': 'width of your band-saw blade, to check whether it can follow the curve',
  '--kerf <length>': 'width of the cut of that blade (default: 1 mm, about 0.04")',
  '--blade-thickness <length>': 'thickness of that blade without its set (default: 0.025", about 0.6 mm)',
  '--depth-of-cut <length>':
    'depth of cut of your table saw at 90° (default: 3 1/8", as on a common 10" saw)',
  '--depth-at-45 <length>':
    'depth of cut of your table saw at a blade tilt of 45° (default: worked out from --depth-of-cut)',
  '--height <length>':
    'largest height under the raised guide of your band saw (default: 6", as on a common 14" saw)',
  '--table <length x width>':
    'size of the band-saw table, along the feed and across it, such as 16x20 (default: 16x16in)',
});

type SawOptions = OptionValues<typeof SAW_OPTIONS>;

export function requireBlade(options: SawOptions): void {
  for (const option of ['kerf', 'bladeThickness'] as const)
    if (options[option] !== undefined && options.blade === undefined) throw ownerFault(option, 'blade');
}

/** In the job's unit. */
export function readSaws(options: SawOptions, unit: Unit): SawingOptions {
  const lengths = readLengths(options, SAW_LENGTHS, unit);
  const { blade: width, kerf, bladeThickness, depthOfCut, depthAt45, ...height } = lengths;
  return {
    ...height,
    ...(width !== undefined && { width }),
    ...resolveKerf(kerf, bladeThickness, unit),
    ...resolveTableSaw(depthOfCut, depthAt45),
    ...(options.table !== undefined && { table: parseSawTable(options.table, unit) }),
  };
}

const SAW_LENGTHS = ['blade', 'kerf', 'bladeThickness', 'depthOfCut', 'depthAt45', 'height'] as const;

function resolveKerf(width: number | undefined, thickness: number | undefined, unit: Unit): { kerf?: Kerf } {
  if (width === undefined && thickness === undefined) return {};
  const kerf = { kerf: width ?? COMMON_KERF_MM, bladeThickness: thickness ?? COMMON_BLADE_THICKNESS_MM };
  if (kerf.bladeThickness < kerf.kerf) return { kerf };
  throw new Fault(
    'saw.kerf',
    `a kerf of ${showFine(kerf.kerf, unit)} is not wider than a blade ${showFine(kerf.bladeThickness, unit)} thick. ` +
      'Measure both, and give a --kerf larger than the --blade-thickness.',
    thickness === undefined ? '--kerf' : '--blade-thickness',
  );
}

function resolveTableSaw(depth: number | undefined, depthAt45: number | undefined): { tableSaw?: TableSaw } {
  if (depth === undefined && depthAt45 === undefined) return {};
  if (depth === undefined) {
    const wording = 'the depth of cut at 90° is missing. Add it, such as --depth-of-cut 3-1/8in.';
    throw new Fault('saw.depth', wording, '--depth-at-45');
  }
  if (depthAt45 !== undefined && depthAt45 > depth)
    throw new Fault(
      'saw.depth',
      (mm) => `${mm(depthAt45)} at 45° is more than ${mm(depth)} at 90°. Give the smaller depth here.`,
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
    const wording = `"${typed}" is not the size of a table. Give its length along the feed and its width, such as 16x20.`;
    throw new Fault('saw.table', wording, '--table');
  }
  const side = (mm: string): number => parseLengthOption('--table', mm, unit, 'positive');
  return { length: side(length), width: side(width) };
}
