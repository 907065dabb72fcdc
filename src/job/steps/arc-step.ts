import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import { type ArcBy, arc } from '../../curves/simple/arc.ts';
import type { Unit } from '../../units/unit.ts';
import { readPoint } from '../parse/read-points.ts';
import { readLength } from '../parse/read-values.ts';
import type { YamlMapping } from '../parse/yaml-mapping.ts';
import type { QuickOptionReader } from '../quick/quick-options.ts';
import type { StepHandle, StepKind, StepReading } from './step-kind.ts';

export type ArcFields = { readonly by: ArcBy };

export const arcStep: StepKind<ArcFields> = {
  keys: ['through', 'rise', 'radius'],
  read,
  run: (from, { to, by }) => arc(from, to, by),
  isRigid: true,
  handles: ({ by }): StepHandle[] => {
    if ('through' in by) return [{ what: 'point', key: 'through', at: by.through }];
    if ('rise' in by) return [{ what: 'rise', key: 'rise', mm: by.rise }];
    return [{ what: 'radius', key: 'radius', mm: by.radius }];
  },
  sentence: (_, { path: [first] }, show) =>
    `part of a circle${first?.type === 'arc' ? ` of radius ${show(first.radius)}` : ''}.`,
  quick: { options: ['nail', 'radius'], read: readQuick },
};

function read(mapping: YamlMapping, unit: Unit): StepReading<ArcFields> | undefined {
  const by = mapping.exactlyOne(
    ['through', 'rise', 'radius'],
    'Give through, rise or radius, such as "rise: 3/4".',
  );
  if (!by) return undefined;
  if (by.name === 'through') {
    const through = readPoint(by.node, unit);
    return through && { fields: { by: { through: through.at } }, points: [through] };
  }
  const length = readLength(by.node, unit);
  if (length === undefined) return undefined;
  if (Math.abs(length) < JOIN_MM)
    return by.node.report('job.zero', `a ${by.name} of 0 gives no arc. Use another ${by.name}, or a line.`);
  return { fields: { by: by.name === 'rise' ? { rise: length } : { radius: length } }, points: [] };
}

function readQuick(options: QuickOptionReader, chord: number | undefined, unit: Unit): ArcFields | undefined {
  if (options.has('radius')) {
    options.refuse('rise', 'the arc already has a radius. Use --radius or --rise, not both.');
    options.refuse('nail', 'the arc already has a radius. Use --radius or --nail, not both.');
    const radius = options.requireLength('radius', unit);
    return radius === undefined ? undefined : { by: { radius } };
  }
  const pin = options.readPin(chord, unit);
  return pin && { by: options.has('nail') ? { through: pin } : { rise: pin.y } };
}
