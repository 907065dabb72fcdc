import type { G } from '@svgdotjs/svg.js';
import type { Point } from '../../curves/geometry/point.ts';
import { editJob } from '../../job/edit/edit-job.ts';
import type { Grip } from '../../part/edit/draggable-points.ts';
import { gripNudged } from '../../part/edit/snap-to-rule.ts';
import { itemAt } from '../../units/checked.ts';
import { updateAttribute, updateText } from '../dom.ts';
import type { Store } from '../state/store.ts';
import type { RuleLayer } from './rule-layer.ts';
import { HEADROOM_PX, type Viewport } from './viewport.ts';

/** Least radius of a handle's touch area, px: a finger's breadth across. */
const TARGET_PX = 22;

/** Shapes that differ without color: a nail is a ring with a dot, a point a ring, an end a square … */
const SYMBOLS: Readonly<Record<Grip['what'], string>> = {
  nail: 'M-8 0a8 8 0 1 0 16 0a8 8 0 1 0-16 0M-1.5 0a1.5 1.5 0 1 0 3 0a1.5 1.5 0 1 0-3 0',
  point: 'M-7 0a7 7 0 1 0 14 0a7 7 0 1 0-14 0',
  apex: 'M0-10L9 6H-9Z',
  join: 'M0-9L9 0L0 9L-9 0Z',
  end: 'M-7-7H7V7H-7Z',
  parallel: 'M-9-7H9V-3H-9ZM-9 3H9V7H-9Z',
};

const LETTER_PX = 11;

const ARROWS: Readonly<Record<string, readonly [along: number, off: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Names by edge: "back, nail"; "back, left end"; "back, nail 2" where an edge has several. */
export function handleNames(grips: readonly Grip[]): string[] {
  const counts = new Map<string, number>();
  const numbered = grips.map(({ edge, what, key }) => {
    const side = what !== 'end' ? '' : key.endsWith('.from') ? 'left ' : 'right ';
    const name = `${edge}, ${side}${what}`;
    const number = (counts.get(name) ?? 0) + 1;
    counts.set(name, number);
    return { name, number };
  });
  return numbered.map(({ name, number }) => (counts.get(name) === 1 ? name : `${name} ${number}`));
}

interface HandleElement {
  readonly group: G;
  grip: Grip;
  name: string;
  /** What was drawn last: most handles stay where they are while one is dragged. */
  lastDrawn: string;
}

export class HandleLayer {
  private readonly elements = new Map<string, HandleElement>();
  private readonly label;
  private heldKey: string | undefined;
  private readonly holdListeners: (() => void)[] = [];
  /** The job before the arrow keys changed it, for Escape. */
  private beforeKeys: { readonly text: string; readonly job: number } | undefined;

  constructor(
    private readonly viewport: Viewport,
    private readonly store: Store,
    private readonly ruleLayer: RuleLayer,
  ) {
    this.label = viewport.layer('notes').plain('').attr('aria-hidden', 'true');
    viewport.onViewChange(() => this.draw());
    store.onChange(() => this.draw());
  }

  draw(): void {
    const { evaluated, canEdit } = this.store;
    const grips = canEdit && evaluated ? evaluated.handles : [];
    const keys = new Set(grips.map(({ key }) => key));
    const gone = [...this.elements.values()].filter(({ grip }) => !keys.has(grip.key));
    const names = handleNames(grips);
    for (const [i, grip] of grips.entries())
      this.placeElement(this.elements.get(grip.key) ?? this.addElement(grip), grip, itemAt(names, i));
    for (const each of gone) this.remove(each, grips);
    this.markHeld();
  }

  /** A handle that disappears passes its focus to the nearest one of its kind and edge. */
  private remove({ group, grip: { key, edge, what, at } }: HandleElement, grips: readonly Grip[]): void {
    const { activeElement } = document;
    const hadKeyboard =
      activeElement === group.node || (key === this.heldKey && activeElement?.closest('#nails'));
    this.elements.delete(key);
    const far = (other: Grip): number => Math.abs(other.at.x - at.x);
    const own = grips.filter((other) => other.edge === edge).toSorted((a, b) => far(a) - far(b));
    const next = own.find((other) => other.what === what) ?? own[0];
    if (hadKeyboard && next) this.focus(next.key);
    group.remove();
  }

  get grip(): Grip | undefined {
    return this.heldElement?.grip;
  }

  get heldName(): string {
    return this.heldElement?.name ?? '';
  }

  private get heldElement(): HandleElement | undefined {
    return this.heldKey === undefined ? undefined : this.elements.get(this.heldKey);
  }

  onHold(listener: () => void): void {
    this.holdListeners.push(listener);
  }

  nearestHandle(at: Point, reach: number): Grip | undefined {
    const far = ({ grip }: HandleElement): number => {
      const { x, y } = this.viewport.toScreen(grip.at);
      return Math.hypot(x - at.x, y - at.y);
    };
    const [nearest] = [...this.elements.values()].sort((a, b) => far(a) - far(b));
    return nearest && far(nearest) <= reach ? nearest.grip : undefined;
  }

  hold(key: string | undefined): void {
    this.heldKey = key;
    this.markHeld();
    for (const listener of this.holdListeners) listener();
  }

  release(): void {
    this.heldElement?.group.node.blur();
  }

  focus(key: string): void {
    this.elements.get(key)?.group.node.focus({ preventScroll: true });
  }

  private addElement(grip: Grip): HandleElement {
    const group = this.viewport.layer('grips').group().addClass('grip').addClass(grip.what);
    const handle: HandleElement = { group, grip, name: '', lastDrawn: '' };
    group.attr({ tabindex: 0, role: 'slider', 'data-key': grip.key });
    group.circle().radius(TARGET_PX).center(0, 0).addClass('reach');
    group.path().attr('d', SYMBOLS[grip.what]);
    group.node.addEventListener('focus', () => {
      this.beforeKeys = { text: this.store.text, job: this.store.jobNumber };
      this.hold(grip.key);
    });
    group.node.addEventListener('blur', ({ relatedTarget }) => {
      // The buttons that act on the held handle do not release it.
      if (relatedTarget instanceof Element && relatedTarget.closest('#nails')) return;
      // A move that made no part is dropped with the handle.
      this.store.commit();
      this.store.endCoalescing();
      this.hold(undefined);
    });
    group.node.addEventListener('keydown', (event) => this.onKey(event, handle.grip));
    this.elements.set(grip.key, handle);
    return handle;
  }

  private placeElement(handle: HandleElement, grip: Grip, name: string): void {
    handle.grip = grip;
    handle.name = name;
    const { x, y } = this.viewport.toScreen(grip.at);
    const now = `${x} ${y} ${grip.at.x} ${grip.at.y} ${this.store.rule.unit} ${name}`;
    if (now === handle.lastDrawn) return;
    handle.lastDrawn = now;
    const { bounds } = this.store.shown.part;
    const { node } = handle.group;
    updateAttribute(node, 'transform', `translate(${x} ${y})`);
    updateAttribute(node, 'aria-label', name);
    updateAttribute(node, 'aria-valuetext', this.valueText(grip));
    updateAttribute(node, 'aria-valuemin', bounds.left.toFixed(1));
    updateAttribute(node, 'aria-valuemax', bounds.right.toFixed(1));
    updateAttribute(node, 'aria-valuenow', grip.at.x.toFixed(1));
  }

  private markHeld(): void {
    const handle = this.heldElement;
    for (const [key, { group }] of this.elements) group.node.classList.toggle('held', key === this.heldKey);
    this.viewport.svg.node.classList.toggle('in-hand', handle !== undefined);
    this.ruleLayer.pointAt(handle?.grip.at);
    const valueText = handle ? this.valueText(handle.grip) : '';
    updateText(this.label.node, valueText);
    if (!handle) return;
    const { x, y } = this.viewport.toScreen(handle.grip.at);
    // Above the finger, or below it near the top of the sheet.
    updateAttribute(this.label.node, 'x', String(this.viewport.labelMiddle(x, valueText.length * LETTER_PX)));
    updateAttribute(this.label.node, 'y', String(y > HEADROOM_PX - 1 ? y - 34 : y + 52));
  }

  private valueText({ at, sets }: Grip): string {
    const { ruleText, lengthText } = this.store;
    const [first] = sets;
    const over = first && first.what !== 'station' ? `${first.what} ${lengthText(first.mm)}; ` : '';
    return `${over}${ruleText(at.x)}, ${lengthText(at.y)}`;
  }

  private onKey(event: KeyboardEvent, grip: Grip): void {
    const arrow = ARROWS[event.key];
    const { evaluated } = this.store;
    if (event.key === 'Escape' && this.beforeKeys?.job === this.store.jobNumber)
      this.store.push(this.beforeKeys.text, grip.key);
    if (!arrow || !evaluated || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    const graduations = event.shiftKey ? 10 : 1;
    const edits = gripNudged(grip, arrow[0] * graduations, arrow[1] * graduations, evaluated.part);
    this.store.preview(editJob(evaluated.text, edits));
    // If the edit is invalid, report it and keep the last valid curve.
    if (this.store.isUpToDate) this.store.commit(grip.key);
  }
}
