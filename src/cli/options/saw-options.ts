import type { SawingOptions } from '../../shop/saw/advise-sawing.ts';
import { COMMON_BLADE_THICKNESS_MM, COMMON_KERF_MM, type Kerf } from '../../shop/saw/blades.ts';
import type { SawTable } from '../../shop/saw/board-support.ts';
import type { TableSaw } from '../../shop/saw/saw-depth.ts';
import { Fault } from '../../units/fault.ts';
import { showFine } from '../../units/number-format.ts';
import type { Unit } from '../../units/unit.ts';
import { optionOwnerFault, parseLengthOption } from './option-values.ts';

export interface SawOptions {
  readonly blade?: string;
  readonly kerf?: string;
  readonly gauge?: string;
  readonly depthOfCut?: string;
  readonly depthAt45?: string;
  readonly height?: string;
  readonly table?: string;
  readonly picture?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** @throws Fault `command.belongs` */
export function requireBlade(options: SawOptions): void {
  for (const option of ['kerf', 'gauge'] as const)
    if (options[option] !== undefined && options.blade === undefined) throw optionOwnerFault(option, 'blade');
}

/** The maker's own blade and saws, in the job's unit. */
export function readSaws(options: SawOptions, unit: Unit): SawingOptions {
  const length = (option: string, typed: string | undefined): number | undefined =>
    typed === undefined ? undefined : parseLengthOption(option, typed, unit, 'positive');
  const width = length('--blade', options.blade);
  const kerf = resolveKerf(length('--kerf', options.kerf), length('--gauge', options.gauge), unit);
  const tableSaw = resolveTableSaw(
    length('--depth-of-cut', options.depthOfCut),
    length('--depth-at-45', options.depthAt45),
  );
  const height = length('--height', options.height);
  return {
    ...(width !== undefined && { width }),
    ...(kerf && { kerf }),
    ...(tableSaw && { tableSaw }),
    ...(height !== undefined && { height }),
    ...(options.table !== undefined && { table: parseSawTable(options.table, unit) }),
  };
}

function resolveKerf(kerf: number | undefined, gauge: number | undefined, unit: Unit): Kerf | undefined {
  if (kerf === undefined && gauge === undefined) return undefined;
  const whole = { kerf: kerf ?? COMMON_KERF_MM, bladeThickness: gauge ?? COMMON_BLADE_THICKNESS_MM };
  if (whole.bladeThickness < whole.kerf) return whole;
  throw new Fault(
    'saw.kerf',
    `a kerf of ${showFine(whole.kerf, unit)} leaves no room for a band ${showFine(whole.bladeThickness, unit)} thick. ` +
      'Give both, --kerf wider than --gauge.',
    gauge === undefined ? '--kerf' : '--gauge',
  );
}

function resolveTableSaw(depth: number | undefined, depthAt45: number | undefined): TableSaw | undefined {
  if (depth === undefined && depthAt45 === undefined) return undefined;
  if (depth === undefined)
    throw new Fault(
      'saw.depth',
      'say how deep the saw cuts upright, too: --depth-of-cut 3-1/8in.',
      '--depth-at-45',
    );
  if (depthAt45 !== undefined && depthAt45 > depth)
    throw new Fault(
      'saw.depth',
      (mm) => `${mm(depthAt45)} at 45° is more than ${mm(depth)} upright. Give the lesser one here.`,
      '--depth-at-45',
    );
  return { name: 'this saw', depth, ...(depthAt45 !== undefined && { depthAt45 }) };
}

function parseSawTable(typed: string, unit: Unit): SawTable {
  const [length, width, ...more] = typed.split(/[x×]/i);
  if (length === undefined || width === undefined || more.length > 0)
    throw new Fault(
      'saw.table',
      `"${typed}" is no size of a table. Write its length along the feed and its width, as in 16x20.`,
      '--table',
    );
  return {
    length: parseLengthOption('--table', length, unit, 'positive'),
    width: parseLengthOption('--table', width, unit, 'positive'),
  };
}
