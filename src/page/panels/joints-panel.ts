import { insertItem, removeValue } from '../../job/edit/set-value.ts';
import type { JobValue } from '../../job/edit/yaml-text.ts';
import { JOINT_KINDS, JOINT_NAMES, type JointKindName } from '../../job/joints/joint-kinds.ts';
import type { Part } from '../../part/part.ts';
import { readOnRule } from '../../units/rule.ts';
import { byId, el } from '../dom.ts';
import type { Store } from '../state/store.ts';
import { type JobField, JobFields, keyField } from './job-field.ts';

const KIND_LABELS: Readonly<Record<JointKindName, string>> = {
  mortise: 'mortise',
  hole: 'hole',
  slot: 'slot with round ends',
  'center-line': 'center line',
  mark: 'mark',
};

/** By the key of the job; a key without words of its own shows as it is. */
const LABELS: Readonly<Record<string, string>> = {
  at: 'station of its middle',
  out: 'offset of its middle',
  turn: 'rotation, degrees',
  depth: 'depth (empty: through)',
  lean: 'tilt, degrees',
  toward: 'tilted toward',
};

/** The joints of the part: choose one and type its measures, add one, or remove one. */
export class JointsPanel {
  private readonly select = byId<HTMLSelectElement>('joint-chosen');
  private readonly kind = byId<HTMLSelectElement>('joint-kind');
  private readonly remove = byId<HTMLButtonElement>('joint-remove');
  private readonly fields: JobFields;
  private shown = '';

  constructor(private readonly store: Store) {
    this.fields = new JobFields(byId('joint-fields'), store);
    this.kind.append(...JOINT_NAMES.map((value) => el('option', { value }, KIND_LABELS[value])));
    byId('joint-add').addEventListener('click', () => this.add());
    this.remove.addEventListener('click', () => store.push(removeValue(store.text, this.select.value)));
    this.select.addEventListener('change', () => this.draw());
    store.onChange(() => this.draw());
  }

  private add(): void {
    const { evaluated, text } = this.store;
    const kind = JOINT_NAMES.find((name) => name === this.kind.value);
    if (!evaluated || !kind) return;
    const { length } = evaluated.part.joints;
    const added = insertItem(text, 'joints', length, firstJoint(kind, evaluated.part));
    if (!this.store.pushOrReject(added)) return;
    this.select.value = `joints[${length}]`;
    this.draw();
  }

  private draw(): void {
    const { evaluated, previewText } = this.store;
    if (!evaluated || previewText !== undefined) return;
    const { joints } = evaluated.part;
    const names = joints.map(({ kind, label, key }, i) => ({
      key,
      label: `${i + 1}: ${label ?? KIND_LABELS[kind]}`,
    }));
    this.showNames(names);
    const joint = joints.find(({ key }) => key === this.select.value);
    this.select.hidden = this.remove.hidden = joints.length === 0;
    const shown = joint ? `${joint.key} ${joint.kind}` : '';
    if (shown === this.shown) this.fields.fill();
    else this.fields.show(joint ? fieldsOf(joint.key, joint.kind) : []);
    this.shown = shown;
  }

  private showNames(names: readonly { key: string; label: string }[]): void {
    const now = [...this.select.options].map(({ text }) => text).join('\n');
    if (now === names.map(({ label }) => label).join('\n')) return;
    const { value } = this.select;
    this.select.replaceChildren(...names.map(({ key, label }) => el('option', { value: key }, label)));
    if (names.some(({ key }) => key === value)) this.select.value = value;
  }
}

const fieldsOf = (key: string, kind: JointKindName): readonly JobField[] =>
  JOINT_KINDS[kind].keys.map((name) => keyField(LABELS[name] ?? name, `${key}.${kind}.${name}`));

/** In the middle of the part, of a usual size: common practice, a third of the thickness wide. */
function firstJoint(kind: JointKindName, { bounds, stock, rule }: Part): JobValue {
  const typed = (mm: number): string => readOnRule(mm, rule).text;
  const middle = {
    at: typed((bounds.left + bounds.right) / 2),
    out: typed((bounds.bottom + bounds.top) / 2),
  };
  const third = (stock?.thickness ?? USUAL_THICKNESS_MM) / 3;
  const recess = { ...middle, length: typed(4 * third), width: typed(third), depth: typed(2 * third) };
  const measures: Readonly<Record<JointKindName, JobValue>> = {
    mortise: recess,
    slot: recess,
    hole: { ...middle, diameter: typed(third), depth: typed(2 * third) },
    'center-line': { at: middle.at },
    mark: { ...middle, label: 'mark' },
  };
  return { [kind]: measures[kind] };
}

/** A board of 1 in, planed. */
const USUAL_THICKNESS_MM = 19;
