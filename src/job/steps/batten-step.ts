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
  /** One nail or more between the ends, in order; or the apex of a batten over one nail. */
  readonly by: { readonly through: readonly [Point, ...Point[]] } | { readonly apex: Point };
  readonly ends: EndConditions;
  /** The thickness of a tapered batten at its start and its end, mm. */
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
  const cure = 'Give "through" for its nails, or "apex" for its highest point, such as "apex: [17, 3]".';
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

const TAPER_CURE = 'Write the thickness at the start and at the end, such as {from: 1/4, to: 1/8}.';

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
  const cure = 'Keep one nail, or remove "strip" for a batten without a taper.';
  throw new Fault('batten.taper-nails', `a tapered batten can have one nail only. ${cure}`);
}

function evenSentence([start, end]: EndConditions): string {
  const held = start === 'held' ? (end === 'held' ? 'both ends' : 'its start') : 'its end';
  const isFree = start === 'free' && end === 'free';
  const ends = isFree ? '' : ` The batten is held at ${held}, in line with the edge next to it.`;
  return `the curve of a batten of even thickness, bent over nails and free to slide along them.${ends}`;
}

const taperedSentence = ({ from, to }: Taper, show: ShowLength): string =>
  `the curve of a batten tapered from ${show(from)} to ${show(to)} thick, bent over one nail. ` +
  'A tapered batten slides toward its thick end, so put a stop there.';

function readQuick(options: QuickOptionReader, chord: number | undefined, unit: Unit) {
  const pin = options.readPin(chord, unit);
  const ends = options.readEnds(END_WORDS);
  const strip = options.readTaper(unit);
  if (!pin || !ends) return undefined;
  const by = options.has('nail') ? { through: [pin] as const } : { apex: pin };
  return { by, ends, ...(strip && { strip }) };
}
