import { removeValue, setValue, valueAt } from '../../job/edit/set-value.ts';
import type { JobValue } from '../../job/edit/yaml-text.ts';
import type { Part } from '../../part/part.ts';
import { byId } from '../dom.ts';
import type { Store } from '../state/store.ts';
import { type JobField, JobFields, keyField } from './job-field.ts';

type Choices = NonNullable<JobField['choices']>;

const WAYS: Choices = [
  { value: 'square', label: 'square' },
  { value: 'own', label: 'angles for each end' },
  { value: 'stands', label: 'as it stands on the floor' },
];

const SIDES = ['left', 'right'] as const;
const SQUARE_ENDS = { left: 'square', right: 'square' };
/** What a leg begins with: a foot that is plain to see. */
const FIRST_FOOT_DEG = '5';

const ANGLE_PAIRS = { saw: ['miter', 'bevel'], leg: ['rake', 'splay'] } as const;
type AnglePair = keyof typeof ANGLE_PAIRS;

const END_CHOICES: Choices = [
  { value: 'square', label: 'square' },
  { value: 'saw', label: 'miter and bevel, as a saw is set' },
  { value: 'leg', label: 'rake and splay, as a leg stands' },
];
const CURVE_CHOICES: Choices = [
  { value: 'square to curve', label: 'square to the curve' },
  { value: 'level', label: 'level' },
];

/** How both ends are cut: square, by their angles, or level with the floor. */
export class EndsPanel {
  private readonly fields: JobFields;
  private shown = '';

  constructor(private readonly store: Store) {
    this.fields = new JobFields(byId('end-fields'), store);
    store.onChange(() => this.draw());
  }

  private draw(): void {
    const { evaluated, previewText, text } = this.store;
    if (!evaluated || previewText !== undefined) return;
    const { part } = evaluated;
    byId('ends-panel').hidden = part.edges.length < 2;
    const shown = `${wayOf(text)} ${SIDES.map((side) => endWay(text, side))} ${part.edges.map(({ name }) => name)}`;
    if (shown === this.shown) this.fields.fill();
    else this.fields.show(fieldsFor(text, part));
    this.shown = shown;
  }
}

function fieldsFor(text: string, part: Part): readonly JobField[] {
  const way = wayOf(text);
  const first: JobField = {
    label: 'ends are',
    choices: WAYS,
    read: wayOf,
    write: (now, typed) => setWay(now, typed, part),
  };
  if (way === 'square') return [first];
  return [
    first,
    ...(way === 'stands' ? standFields(part) : SIDES.flatMap((side) => endFields(text, side, part))),
  ];
}

const wayOf = (text: string): string =>
  valueAt(text, 'stands') !== undefined ? 'stands' : valueAt(text, 'ends') !== undefined ? 'own' : 'square';

function setWay(text: string, way: string, { edges: [edge] }: Part): string {
  if (way === 'square') return removeValue(removeValue(text, 'ends'), 'stands');
  if (way === 'own') return setValue(removeValue(text, 'stands'), 'ends', SQUARE_ENDS);
  const stands = { foot: 'left', 'foot-out': { [edge.name]: FIRST_FOOT_DEG } };
  return setValue(removeValue(text, 'ends'), 'stands', stands);
}

const endWay = (text: string, side: string): string => {
  const end = valueAt(text, `ends.${side}`);
  if (typeof end === 'string') return end;
  return end && ('rake' in end || 'splay' in end) ? 'leg' : end ? 'saw' : 'square';
};

const isPair = (way: string): way is AnglePair => way in ANGLE_PAIRS;

function endFields(text: string, side: string, { edges }: Part): readonly JobField[] {
  const key = `ends.${side}`;
  const hasParallel = edges.some(({ parallel }) => parallel);
  const cut: JobField = {
    label: `${side} end`,
    choices: hasParallel ? [...END_CHOICES, ...CURVE_CHOICES] : END_CHOICES,
    read: (now) => endWay(now, side),
    write: (now, typed) => setValue(now, key, isPair(typed) ? angles(typed, '0', '0') : typed),
  };
  const way = endWay(text, side);
  if (!isPair(way)) return [cut];
  return [cut, ...ANGLE_PAIRS[way].map((name) => keyField(`${name}, degrees`, `${key}.${name}`))];
}

function angles(way: AnglePair, first: string, second: string): JobValue {
  const [a, b] = ANGLE_PAIRS[way];
  return { [a]: first, [b]: second };
}

const FACE_CHOICES: Choices = [
  { value: '', label: 'no face' },
  { value: 'reference-face', label: 'the reference face' },
  { value: 'other-face', label: 'the other face' },
];

function standFields({ edges }: Part): readonly JobField[] {
  const names = edges.map(({ name }) => name);
  const edgeChoices = [
    { value: '', label: 'no edge' },
    ...names.map((name) => ({ value: name, label: `the edge “${name}”` })),
  ];
  return [
    keyField('end on the floor', 'stands.foot', {
      choices: SIDES.map((side) => ({ value: side, label: side })),
    }),
    ...towardFields('foot out toward', names, edgeChoices),
    ...towardFields('and toward', ['reference-face', 'other-face'], FACE_CHOICES),
    keyField('twist', 'stands.foot-out.twist', {
      choices: [
        { value: '', label: 'not twisted' },
        { value: 'level-across', label: 'face level across' },
      ],
    }),
  ];
}

/** Toward one of some sides, and by how much: the side is the key of the angle. */
function towardFields(label: string, sides: readonly string[], choices: Choices): readonly JobField[] {
  const key = (side: string): string => `stands.foot-out.${side}`;
  const sideIn = (text: string): string => sides.find((side) => valueAt(text, key(side)) !== undefined) ?? '';
  const without = (text: string): string => sides.reduce((now, side) => removeValue(now, key(side)), text);
  const angleIn = (text: string): string => {
    const angle = valueAt(text, key(sideIn(text)));
    return sideIn(text) !== '' && typeof angle === 'string' ? angle : '';
  };
  const withAngle = (text: string, side: string, angle: string): string =>
    angle === '' ? without(text) : setValue(without(text), key(side), angle);
  return [
    {
      label,
      choices,
      read: sideIn,
      write: (text, side) => withAngle(text, side, side === '' ? '' : angleIn(text) || FIRST_FOOT_DEG),
    },
    {
      label: `${label}, by degrees`,
      read: angleIn,
      write: (text, angle) => withAngle(text, sideIn(text) || (sides[0] ?? ''), angle),
    },
  ];
}
