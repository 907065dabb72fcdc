import { add, type Point, point, scale, subtract } from '../../curves/geometry/point.ts';
import { showAngle } from '../../units/number-format.ts';
import type { Unit } from '../../units/unit.ts';
import { omitUndefined, readAngle, readOptionalLength, readWord } from '../parse/read-values.ts';
import type { YamlMapping } from '../parse/yaml-mapping.ts';
import type { JointKind, JointShape, Lean } from './joint-kind.ts';
import { arrow, CROSS_PAST_MM, cross } from './joint-lines.ts';
import { LEAN_DIRECTIONS, leanShift, leanStretch, towardWords } from './lean.ts';
import { readMiddle, requireLength } from './read-measures.ts';
import { depthWords } from './recess.ts';

export interface Hole {
  readonly at: Point;
  readonly diameter: number;
  /** Absent: right through. */
  readonly depth?: number;
  readonly lean?: Lean;
}

const ARROW_MM = 9;

/** No drill is set up flatter than this to the face. */
const MAX_HOLE_LEAN = (60 * Math.PI) / 180;

export const hole: JointKind<Hole> = {
  keys: ['at', 'out', 'diameter', 'depth', 'lean', 'toward', 'face', 'label'],
  read,
  place: ({ at }) => ({ at: at.x, out: at.y }),
  size: ({ diameter, depth, lean, ...joint }, show) => [
    `${show(diameter)} across`,
    depthWords(depth, show),
    ...(lean ? [`tilted ${showAngle(lean.by)} ${towardWords(lean, joint)}`] : []),
  ],
  lengths: ({ diameter }) => [diameter],
  angles: ({ lean }, side) => {
    const { x, y } = lean ? scale(LEAN_DIRECTIONS[lean.toward], lean.by) : point(0, 0);
    return [side * x, y];
  },
  shape,
  lean: ({ lean }) => lean,
  lines: (joint) => {
    const { at, diameter, lean } = joint;
    const tip = diameter / 2 + ARROW_MM;
    return [
      { style: 'joint', path: shape(joint, 0).outline, closed: true },
      ...cross('axis', at, diameter / 2 + CROSS_PAST_MM, 0),
      ...(lean ? arrow(at, LEAN_DIRECTIONS[lean.toward], tip) : []),
    ];
  },
};

function read(mapping: YamlMapping, unit: Unit): Hole | undefined {
  const at = readMiddle(mapping, unit);
  const diameter = requireLength(mapping, 'diameter', unit);
  const rest = omitUndefined({ depth: readOptionalLength(mapping, 'depth', unit), lean: readLean(mapping) });
  return at && diameter !== undefined ? { at, diameter, ...rest } : undefined;
}

function readLean(mapping: YamlMapping): Lean | undefined {
  const [entry, way] = [mapping.get('lean'), mapping.get('toward')];
  if (!entry) {
    if (!mapping.isMissing('lean')) return undefined;
    const wording = 'a direction needs an angle. Give the angle, such as "lean: 6", or remove "toward".';
    return way?.reportAtName('job.missing', wording);
  }
  const by = readAngle(entry);
  const toward = way ? readWord(way, ['right', 'left', 'out', 'in'] as const) : 'right';
  if (by === undefined || toward === undefined) return undefined;
  if (by > 0 && by <= MAX_HOLE_LEAN) return { by, toward };
  const wording =
    'the angle of a hole must be more than 0° and at most 60°. For its direction, use toward: left, right, out or in.';
  return entry.report('job.lean', wording);
}

/** A leaning drill opens an ellipse, longer by 1/cos of its lean: the distance is that of a slot around it. */
function shape({ at, diameter, lean }: Hole, depth: number): JointShape {
  const [centre, radius] = [add(at, leanShift(lean, depth)), diameter / 2];
  const longer = lean ? scale(LEAN_DIRECTIONS[lean.toward], radius * (leanStretch(lean) - 1)) : point(0, 0);
  const [past, aside] = [Math.abs(longer.x), Math.abs(longer.y)];
  return {
    outline: [{ type: 'arc', centre, radius, start: 0, sweep: 2 * Math.PI }],
    middle: centre,
    signedDistance: (p) => {
      const { x, y } = subtract(p, centre);
      return Math.hypot(Math.max(Math.abs(x) - past, 0), Math.max(Math.abs(y) - aside, 0)) - radius;
    },
  };
}
