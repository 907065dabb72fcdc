import { type BaseLine, chordLine, REFERENCE_LINE, stationsOf } from '../../part/offsets.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { shellArgument } from '../../tiling/paper/printer-scale.ts';
import { Fault } from '../../units/fault.ts';
import { quoted } from '../../units/quoted.ts';
import type { Unit } from '../../units/unit.ts';
import { atOption, type OptionValues, parseLengthOption } from './option-spec.ts';
import type { edgeOption, fromOption } from './shared-options.ts';

export type EdgeOptions = OptionValues<readonly [ReturnType<typeof edgeOption>, typeof fromOption]>;

export function selectEdges(part: Part, { edge }: Pick<EdgeOptions, 'edge'>): Part['edges'] {
  if (edge === undefined) return part.edges;
  const found = part.edges.find(({ name }) => name === edge);
  if (found) return [found];
  const wording = `--edge: ${quoted(edge)} is not an edge of the part. Use ${edgeNames(part, 'or')}.`;
  throw new Fault('command.no-such-edge', wording);
}

export function selectEdge(part: Part, options: Pick<EdgeOptions, 'edge'>): PartEdge {
  const [edge, other] = selectEdges(part, options);
  if (!other) return edge;
  const wording = `the part has two edges, ${edgeNames(part, 'and')}. Name the edge that you measured: ${edgeFlag(other)}.`;
  throw new Fault('check.which-edge', wording);
}

const edgeNames = ({ edges }: Part, word: 'and' | 'or'): string =>
  edges.map(({ name }) => quoted(name)).join(` ${word} `);

/** As it is typed: "--edge back". */
export const edgeFlag = ({ name }: PartEdge): string => `--edge ${shellArgument(name)}`;

export function selectBaseLine(edge: PartEdge, { from = 'reference' }: Pick<EdgeOptions, 'from'>): BaseLine {
  if (from === 'reference') return REFERENCE_LINE;
  if (from === 'chord') return chordLine(edge);
  throw new Fault(
    'command.from',
    `--from: ${quoted(from)} is not a line to measure from. Use reference or chord.`,
  );
}

export function stationsAtSpacing(edge: PartEdge, base: BaseLine, unit: Unit, typed?: string): number[] {
  const every = typed === undefined ? undefined : parseLengthOption('--every', typed, unit, 'positive');
  return atOption('--every', () => stationsOf(edge, base, unit, every));
}
