import type { G } from '@svgdotjs/svg.js';
import type { Point } from '../../curves/geometry/point.ts';
import { editJob } from '../../job/edit/edit-job.ts';
import { type Grip, gripNudged } from '../../part/edit/draggable-points.ts';
import { put, write } from '../dom.ts';
import type { Bench } from '../state/store.ts';
import type { RuleLayer } from './rule-layer.ts';
import { toScreen } from './view-transform.ts';
import { HEAD_PX, type Stage } from './viewport.ts';

/** A finger's breadth: what the hand takes hold of is at least so far across, px. */
const REACH_PX = 22;

/** Signs that tell apart without colour: a nail is a ring with its point, a pin a ring, an end a square … */
const SIGNS: Readonly<Record<Grip['what'], string>> = {
  nail: 'M-8 0a8 8 0 1 0 16 0a8 8 0 1 0-16 0M-1.5 0a1.5 1.5 0 1 0 3 0a1.5 1.5 0 1 0-3 0',
  pin: 'M-7 0a7 7 0 1 0 14 0a7 7 0 1 0-14 0',
  apex: 'M0-10L9 6H-9Z',
  join: 'M0-9L9 0L0 9L-9 0Z',
  end: 'M-7-7H7V7H-7Z',
};

/** A letter of the words beside what is in hand takes at most so much, px. */
const LETTER_PX = 11;

/** Graduations at a time with the arrow keys, and with shift. */
const [ONE, TEN] = [1, 10];
const ARROWS: Readonly<Record<string, readonly [along: number, off: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Each by its edge: "back, nail"; "back, left end"; "back, nail 2" where it has several. */
export function namesOf(grips: readonly Grip[]): string[] {
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

interface Handle {
  readonly group: G;
  grip: Grip;
  name: string;
  /** As it was drawn last: most grips stay where they are while one is dragged. */
  drawn: string;
}

/** The places to take hold of, each a control of its own: dragged, or moved by the arrow keys. */
export class Handles {
  private readonly handles = new Map<string, Handle>();
  private readonly label;
  private inHand: string | undefined;
  private readonly onHand: (() => void)[] = [];
  /** The text, and of which job, before the keys began to move something: Escape goes back to it. */
  private before: { readonly text: string; readonly job: number } | undefined;

  constructor(
    private readonly stage: Stage,
    private readonly bench: Bench,
    private readonly rules: RuleLayer,
  ) {
    this.label = stage.layer('notes').plain('').attr('aria-hidden', 'true');
    stage.moved(() => this.draw());
    bench.changed(() => this.draw());
  }

  draw(): void {
    const { made, canMove } = this.bench;
    const grips = canMove && made ? made.grips : [];
    const kept = new Set(grips.map(({ key }) => key));
    const gone = [...this.handles.values()].filter(({ grip: { key } }) => !kept.has(key));
    const names = namesOf(grips);
    for (const [i, grip] of grips.entries())
      this.place(this.handles.get(grip.key) ?? this.added(grip), grip, names[i]!);
    for (const each of gone) this.remove(each, grips);
    this.mark();
  }

  /** A grip that is no more hands the keyboard on to the nearest of its kind and edge. */
  private remove({ group, grip: { key, edge, what, at } }: Handle, grips: readonly Grip[]): void {
    const { activeElement } = document;
    const hadKeyboard =
      activeElement === group.node || (key === this.inHand && activeElement?.closest('#nails'));
    this.handles.delete(key);
    const far = (grip: Grip): number => Math.abs(grip.at.x - at.x);
    const own = grips.filter((grip) => grip.edge === edge).toSorted((a, b) => far(a) - far(b));
    const next = own.find((grip) => grip.what === what) ?? own[0];
    if (hadKeyboard && next) this.focus(next.key);
    group.remove();
  }

  /** What is in hand, and what it is called. */
  get grip(): Grip | undefined {
    return this.handleInHand?.grip;
  }

  get name(): string {
    return this.handleInHand?.name ?? '';
  }

  private get handleInHand(): Handle | undefined {
    return this.inHand === undefined ? undefined : this.handles.get(this.inHand);
  }

  /** Called when the hand takes hold of another grip, or of none. */
  held(listener: () => void): void {
    this.onHand.push(listener);
  }

  /** The grip nearest to a place on the screen, if one is within reach. */
  nearest(at: Point, reach: number): Grip | undefined {
    const far = ({ grip }: Handle): number => {
      const { x, y } = toScreen(this.stage.view, grip.at);
      return Math.hypot(x - at.x, y - at.y);
    };
    const [first] = [...this.handles.values()]
      .filter((each) => far(each) <= reach)
      .sort((a, b) => far(a) - far(b));
    return first?.grip;
  }

  /** Shows a grip as the one in hand, without its stealing the keyboard from a field that names it. */
  point(key: string | undefined): void {
    this.inHand = key;
    this.mark();
    for (const listener of this.onHand) listener();
  }

  layDown(): void {
    this.handleInHand?.group.node.blur();
  }

  focus(key: string): void {
    this.handles.get(key)?.group.node.focus({ preventScroll: true });
  }

  private added(grip: Grip): Handle {
    const group = this.stage.layer('grips').group().addClass('grip').addClass(grip.what);
    group.attr({ tabindex: 0, role: 'slider', 'data-key': grip.key });
    group
      .circle(2 * REACH_PX)
      .center(0, 0)
      .addClass('reach');
    group.path().attr('d', SIGNS[grip.what]);
    group.node.addEventListener('focus', () => {
      this.before = { text: this.bench.text, job: this.bench.job };
      this.point(grip.key);
    });
    group.node.addEventListener('blur', ({ relatedTarget }) => {
      // What is done to the grip in hand does not take it out of the hand.
      if (relatedTarget instanceof Element && relatedTarget.closest('#nails')) return;
      // A move that made no part is given up with the grip.
      this.bench.letGo();
      this.bench.endBurst();
      this.point(undefined);
    });
    group.node.addEventListener('keydown', (event) => this.key(event, grip.key));
    const handle = { group, grip, name: '', drawn: '' };
    this.handles.set(grip.key, handle);
    return handle;
  }

  private place(handle: Handle, grip: Grip, name: string): void {
    handle.grip = grip;
    handle.name = name;
    const { x, y } = toScreen(this.stage.view, grip.at);
    const now = `${x} ${y} ${grip.at.x} ${grip.at.y} ${this.bench.rule.unit} ${name}`;
    if (now === handle.drawn) return;
    handle.drawn = now;
    const { bounds } = this.bench.made!.part;
    const { node } = handle.group;
    put(node, 'transform', `translate(${x} ${y})`);
    put(node, 'aria-label', name);
    put(node, 'aria-valuetext', this.words(grip));
    put(node, 'aria-valuemin', bounds.left.toFixed(1));
    put(node, 'aria-valuemax', bounds.right.toFixed(1));
    put(node, 'aria-valuenow', grip.at.x.toFixed(1));
  }

  /** The grip in hand: its hair on the rules, and what it reads beside it. */
  private mark(): void {
    const handle = this.handleInHand;
    for (const [key, { group }] of this.handles) group.node.classList.toggle('held', key === this.inHand);
    this.stage.svg.node.classList.toggle('in-hand', handle !== undefined);
    this.rules.point(handle?.grip.at);
    const words = handle ? this.words(handle.grip) : '';
    write(this.label.node, words);
    if (!handle) return;
    const { x, y } = toScreen(this.stage.view, handle.grip.at);
    // Above the finger, or below it near the sheet's upper side.
    put(this.label.node, 'x', String(this.stage.middleFor(x, words.length * LETTER_PX)));
    put(this.label.node, 'y', String(y > HEAD_PX - 1 ? y - 34 : y + 52));
  }

  private words({ at, sets }: Grip): string {
    const { bare, length } = this.bench;
    const [first] = sets;
    const over = first && first.what !== 'station' ? `${first.what} ${length(first.mm)}; ` : '';
    return `${over}${bare(at.x)}, ${length(at.y)}`;
  }

  private key(event: KeyboardEvent, key: string): void {
    const arrow = ARROWS[event.key];
    const { made } = this.bench;
    if (event.key === 'Escape' && this.before?.job === this.bench.job) this.bench.step(this.before.text, key);
    if (!arrow || !made || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    const by = event.shiftKey ? TEN : ONE;
    const grip = this.handles.get(key)!.grip;
    this.bench.try(editJob(made.text, gripNudged(grip, arrow[0] * by, arrow[1] * by, made.part)));
    // What makes no part is told, and the line stays where it is.
    if (this.bench.isTrue) this.bench.letGo(key);
  }
}
