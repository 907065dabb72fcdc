import type { Curve } from '../../curves/curve.ts';
import { batten } from '../../curves/elastica/batten.ts';
import type { StripEnds } from '../../curves/elastica/solve-strip.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { type Taper, taperedBatten } from '../../curves/tapered/tapered-batten.ts';
import { Fault, type ShowLength } from '../../units/fault.ts';
import type { Unit } from '../../units/unit.ts';
import { readPoint, readPoints } from '../parse/read-points.ts';
import { readLength } from '../parse/read-values.ts';
import { YamlMapping } from '../parse/yaml-mapping.ts';
import type { YamlNode } from '../parse/yaml-node.ts';
import type { QuickOptionReader } from '../quick/quick-options.ts';
import { type EndConditions, readEnds } from './end-conditions.ts';
import { pointHandles, type StepKind, type StepReading } from './step-kind.ts';

export interface BattenFields {
  /** One nail or more between the ends, in order; or the apex that the strip shall have over one nail. */
  readonly by: { readonly through: readonly [Point, ...Point[]] } | { readonly apex: Point };
  readonly ends: EndConditions;
  /** The thickness of a strip that is planed thinner from its start to its end, mm. */
  readonly strip?: Taper;
}

const END_WORDS = ['free', 'held'] as const;

export const battenStep: StepKind<BattenFields> = {
  keys: ['through', 'apex', 'ends', 'strip'],
  read,
  run: makeRun,
  ends: ({ ends }) => ends,
  handles: ({ by }) =>
    'apex' in by ? [{ what: 'apex', key: 'apex', at: by.apex }] : pointHandles('nail', by.through),
  pointList: ({ by }) => ('through' in by ? { what: 'nail', points: by.through } : undefined),
  sentence: ({ ends, strip }, _, show) => (strip ? taperedSentence(strip, show) : evenSentence(ends)),
  quick: { options: ['nail', 'ends', 'strip'], read: readQuick },
};

function read(mapping: YamlMapping, unit: Unit): StepReading<BattenFields> | undefined {
  const passed = readBy(mapping, unit);
  const ends = readEnds(mapping, END_WORDS);
  const strip = mapping.get('strip');
  const taper = strip && readTaper(strip, unit);
  if (!passed || !ends || (strip && !taper)) return undefined;
  return { fields: { ...passed.fields, ends, ...(taper && { strip: taper }) }, points: passed.points };
}

function readBy(mapping: YamlMapping, unit: Unit): StepReading<Pick<BattenFields, 'by'>> | undefined {
  const cure = 'Give a batten the points it passes: through for nails, apex for its highest point.';
  const by = mapping.exactlyOne(['through', 'apex'], cure);
  if (!by) return undefined;
  if (by.name === 'apex') {
    const apex = readPoint(by.node, unit);
    return apex && { fields: { by: { apex: apex.at } }, points: [apex] };
  }
  const points = readPoints(by.node, unit);
  const [first, ...more] = points?.map(({ at }) => at) ?? [];
  return points && first && { fields: { by: { through: [first, ...more] } }, points };
}

const TAPER_CURE =
  'Write a tapered strip by its thickness at the start and at the end: {from: 1/4, to: 1/8}.';

function readTaper(node: YamlNode, unit: Unit): Taper | undefined {
  const mapping = YamlMapping.of(node, TAPER_CURE, ['from', 'to']);
  const thickness = (name: 'from' | 'to'): number | undefined => {
    const end = mapping?.require(name, TAPER_CURE);
    return end && readLength(end, unit, 'positive');
  };
  const [from, to] = [thickness('from'), thickness('to')];
  return from === undefined || to === undefined ? undefined : { from, to };
}

function makeRun(from: Point, step: BattenFields & { readonly to: Point }, ends: StripEnds): Curve {
  const { by, strip, to } = step;
  if (!strip) return batten(from, to, by, ends);
  if ('apex' in by) return taperedBatten(from, to, by, strip, ends);
  const [nail, another] = by.through;
  if (!another) return taperedBatten(from, to, { nail }, strip, ends);
  const cure = 'Keep one, or leave out "strip" for an even strip.';
  throw new Fault('batten.taper-nails', `a tapered strip is bent over one nail only. ${cure}`);
}

function evenSentence([start, end]: EndConditions): string {
  const held = start === 'held' ? (end === 'held' ? 'both ends' : 'its start') : 'its end';
  const ends = start === 'free' && end === 'free' ? '' : `, ${held} held in line with what it meets`;
  return `the line that an even, springy batten takes when it is bent over nails and may slide along them${ends}.`;
}

const taperedSentence = ({ from, to }: Taper, show: ShowLength): string =>
  `the line of a springy batten planed from ${show(from)} thick to ${show(to)}, bent over one nail; ` +
  'such a strip creeps thick end first, so that friction or a stop must hold that end.';

function readQuick(options: QuickOptionReader, chord: number | undefined, unit: Unit) {
  const pin = options.readPin(chord, unit);
  const ends = options.readEnds(END_WORDS);
  const strip = options.readTaper(unit);
  if (!pin || !ends) return undefined;
  const by = options.has('nail') ? { through: [pin] as const } : { apex: pin };
  return { by, ends, ...(strip && { strip }) };
}
