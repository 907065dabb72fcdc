import type { Point } from '../../curves/geometry/point.ts';
import { withNail, withoutNail } from '../../job/edit/edit-nails.ts';
import type { Grip } from '../../part/edit/draggable-points.ts';
import {
  type NewNail,
  nailBeside,
  nailInWidestGap,
  nailNear,
  nailOf,
  settableOn,
} from '../../part/edit/new-nails.ts';
import type { Part } from '../../part/part.ts';
import { Fault } from '../../units/fault.ts';
import { byId, write } from '../dom.ts';
import { told } from '../state/evaluate-job.ts';
import type { Bench } from '../state/store.ts';
import type { Handles } from './handle-layer.ts';
import { NailGhost } from './nail-preview.ts';
import { toPart } from './view-transform.ts';
import { reachOf, type Stage } from './viewport.ts';

/** Nails set on a line of the drawing and taken out of it: by button and hand, or by the keys N and Delete. */
export class Nails {
  private setting = false;
  /** Of what was in hand last: a keyboard's nail is set there. */
  private edge: string | undefined;
  private readonly set = byId<HTMLButtonElement>('nail-set');
  private readonly out = byId<HTMLButtonElement>('nail-out');
  private readonly ghost;

  constructor(
    private readonly stage: Stage,
    private readonly bench: Bench,
    private readonly handles: Handles,
  ) {
    this.ghost = new NailGhost(stage, bench);
    handles.held(() => this.draw());
    bench.changed(() => this.draw());
    this.listen();
  }

  /** Whether the next touch of a line sets a nail. */
  get isSetting(): boolean {
    return this.setting;
  }

  /** The hand touches the sheet: a nail stands in the line if one is near, to be moved on at once. */
  setAt(hand: Point, reach: number): Grip | undefined {
    // What was in hand is laid down first: its going would end the step that begins here.
    this.handles.layDown();
    const nail = this.unlessRefused((part) => this.near(part, hand, reach));
    if (!nail) return undefined;
    this.bench.try(this.textWith(nail));
    const { faults } = this.bench;
    if (faults.length > 0) {
      this.bench.letGo();
      this.bench.refuse(faults);
      return undefined;
    }
    this.choose(false);
    return this.bench.made?.grips.find(({ key }) => key === `${nail.key}[${nail.index}]`);
  }

  private listen(): void {
    const { node } = this.stage.svg;
    this.set.addEventListener('click', ({ detail }) => {
      // A keyboard's click touches no line: its nail stands at once, and the arrow keys move it.
      if (detail === 0) this.setNow((part) => nailInWidestGap(part, this.edge));
      else this.choose(!this.setting);
    });
    this.out.addEventListener('click', () => this.takeOut());
    const own = byId('nails');
    // A press of a button leaves the nail in hand.
    own.addEventListener('mousedown', (event) => event.preventDefault());
    own.addEventListener('focusout', ({ relatedTarget }) => {
      const stays = relatedTarget instanceof Element && relatedTarget.closest('#nails, .grip');
      if (!stays) this.handles.point(undefined);
    });
    node.addEventListener('keydown', (event) => this.key(event));
    node.addEventListener('pointermove', (event) => this.show(event));
    node.addEventListener('pointerleave', () => this.ghost.show(undefined));
    window.addEventListener('keydown', ({ key }) => {
      if (key === 'Escape' && this.setting) this.choose(false);
    });
  }

  private key(event: KeyboardEvent): void {
    const { key, altKey, ctrlKey, metaKey } = event;
    const { grip } = this.handles;
    if (!grip || altKey || ctrlKey || metaKey) return;
    if (key === 'Delete' || key === 'Backspace') this.takeOut();
    else if (key.toLowerCase() === 'n') this.setNow((part) => nailBeside(part, grip.edge, grip.at));
    else return;
    event.preventDefault();
  }

  /** The button stays pressed until a nail stands, or the hand thinks better of it. */
  private choose(isSetting: boolean): void {
    // What no line takes is said before the hand looks for one.
    if (isSetting && !this.unlessRefused((part) => nailInWidestGap(part))) return;
    this.setting = isSetting;
    this.set.setAttribute('aria-pressed', String(isSetting));
    write(byId('nail-said'), isSetting ? 'Now touch the line where it goes.' : '');
    this.ghost.take(isSetting);
  }

  /** Where it would stand, before a mouse is pressed. */
  private show(event: PointerEvent): void {
    if (!this.setting || event.pointerType !== 'mouse' || !this.bench.made) return;
    try {
      this.ghost.show(this.near(this.bench.made.part, this.stage.placeOf(event), reachOf(event)));
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      this.ghost.show(undefined);
    }
  }

  private near(part: Part, hand: Point, reach: number): NewNail | undefined {
    const { view } = this.stage;
    return nailNear(part, toPart(view, hand), reach / view.scale);
  }

  private setNow(find: (part: Part) => NewNail): void {
    const nail = this.unlessRefused(find);
    if (nail && this.step(this.textWith(nail))) this.handles.focus(`${nail.key}[${nail.index}]`);
  }

  private takeOut(): void {
    const { grip } = this.handles;
    const text = grip && this.unlessRefused(() => this.textWithout(grip.key));
    // What stands there now comes to hand: the next nail, or the last one's neighbour.
    if (text !== undefined && this.step(text)) this.handles.focus(grip!.key);
  }

  private step(text: string): boolean {
    const faults = this.bench.stepIfSound(text);
    if (faults.length > 0) this.bench.refuse(faults);
    return faults.length === 0;
  }

  private readonly textWith = ({ key, index, typed }: NewNail): string =>
    withNail(this.bench.made!.text, key, index, typed);

  private textWithout(key: string): string {
    const nail = nailOf(key);
    if (nail) return withoutNail(this.bench.made!.text, nail.list, nail.index);
    const wording =
      'only nails of a batten and pins of a spline can be taken out: the line needs this place. Move it instead.';
    throw new Fault('nails.not-one', wording, key);
  }

  /** What comes of the part; or nothing, and it is told why. */
  private unlessRefused<T>(work: (part: Part) => T): T | undefined {
    const { made, canMove } = this.bench;
    try {
      if (!made || !canMove) throw new Fault('nails.job', 'first put right what is wrong with the job.');
      return work(made.part);
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      this.bench.refuse([told(error, new Map())]);
      return undefined;
    }
  }

  private draw(): void {
    const { made } = this.bench;
    const { grip, name } = this.handles;
    if (grip) this.edge = grip.edge;
    const what = made ? settableOn(made.part).join(' or ') : '';
    if (this.setting && !what) this.choose(false);
    write(this.set, `Set a ${what || 'nail'}`);
    const isNail = grip !== undefined && nailOf(grip.key) !== undefined;
    this.out.hidden = !isNail;
    if (isNail) this.out.setAttribute('aria-label', `Take it out: ${name}`);
  }
}
