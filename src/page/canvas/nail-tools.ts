import type { Point } from '../../curves/geometry/point.ts';
import { insertNail, removeNail } from '../../job/edit/edit-nails.ts';
import type { Grip } from '../../part/edit/draggable-points.ts';
import {
  type NewNail,
  nailAfter,
  nailAtPointer,
  nailInWidestGap,
  parseNailKey,
  settableKinds,
} from '../../part/edit/new-nails.ts';
import type { Part } from '../../part/part.ts';
import { Fault } from '../../units/fault.ts';
import { byId, updateText } from '../dom.ts';
import { toDiagnostic } from '../state/evaluate-job.ts';
import type { Store } from '../state/store.ts';
import type { HandleLayer } from './handle-layer.ts';
import { NailPreview } from './nail-preview.ts';
import { toPart } from './view-transform.ts';
import { reachFor, type Viewport } from './viewport.ts';

/** Nails set on a line of the drawing and taken out of it: by button and hand, or by the keys N and Delete. */
export class NailTools {
  private placing = false;
  /** Of what was in hand last: a keyboard's nail is set there. */
  private lastEdge: string | undefined;
  private readonly setButton = byId<HTMLButtonElement>('nail-set');
  private readonly removeButton = byId<HTMLButtonElement>('nail-out');
  private readonly nailPreview;

  constructor(
    private readonly viewport: Viewport,
    private readonly store: Store,
    private readonly handleLayer: HandleLayer,
  ) {
    this.nailPreview = new NailPreview(viewport, store);
    handleLayer.onHold(() => this.draw());
    store.onChange(() => this.draw());
    this.listen();
  }

  /** Whether the next touch of a line sets a nail. */
  get isPlacing(): boolean {
    return this.placing;
  }

  /** The hand touches the sheet: a nail stands in the line if one is near, to be moved on at once. */
  placeNailAt(hand: Point, reach: number): Grip | undefined {
    // What was in hand is laid down first: its going would end the step that begins here.
    this.handleLayer.release();
    const nail = this.tryOnPart((part) => this.nailNearPointer(part, hand, reach));
    if (!nail) return undefined;
    this.store.preview(this.textWith(nail));
    const { faults } = this.store;
    if (faults.length > 0) {
      this.store.commit();
      this.store.reject(faults);
      return undefined;
    }
    this.setPlacing(false);
    return this.store.evaluated?.handles.find(({ key: onKey }) => onKey === `${nail.key}[${nail.index}]`);
  }

  private listen(): void {
    const { node } = this.viewport.svg;
    this.setButton.addEventListener('click', ({ detail }) => {
      // A keyboard's click touches no line: its nail stands at once, and the arrow keys move it.
      if (detail === 0) this.placeNail((part) => nailInWidestGap(part, this.lastEdge));
      else this.setPlacing(!this.placing);
    });
    this.removeButton.addEventListener('click', () => this.removeHeldNail());
    const own = byId('nails');
    // A press of a button leaves the nail in hand.
    own.addEventListener('mousedown', (event) => event.preventDefault());
    own.addEventListener('focusout', ({ relatedTarget }) => {
      const stays = relatedTarget instanceof Element && relatedTarget.closest('#nails, .grip');
      if (!stays) this.handleLayer.hold(undefined);
    });
    node.addEventListener('keydown', (event) => this.key(event));
    node.addEventListener('pointermove', (event) => this.previewNail(event));
    node.addEventListener('pointerleave', () => this.nailPreview.show(undefined));
    window.addEventListener('keydown', ({ key }) => {
      if (key === 'Escape' && this.placing) this.setPlacing(false);
    });
  }

  private key(event: KeyboardEvent): void {
    const { key, altKey, ctrlKey, metaKey } = event;
    const { grip } = this.handleLayer;
    if (!grip || altKey || ctrlKey || metaKey) return;
    if (key === 'Delete' || key === 'Backspace') this.removeHeldNail();
    else if (key.toLowerCase() === 'n') this.placeNail((part) => nailAfter(part, grip.edge, grip.at));
    else return;
    event.preventDefault();
  }

  /** The button stays pressed until a nail stands, or the hand thinks better of it. */
  private setPlacing(isSetting: boolean): void {
    // What no line takes is said before the hand looks for one.
    if (isSetting && !this.tryOnPart((part) => nailInWidestGap(part))) return;
    this.placing = isSetting;
    this.setButton.setAttribute('aria-pressed', String(isSetting));
    updateText(byId('nail-said'), isSetting ? 'Now touch the line where it goes.' : '');
    this.nailPreview.setActive(isSetting);
  }

  /** Where it would stand, before a mouse is pressed. */
  private previewNail(event: PointerEvent): void {
    if (!this.placing || event.pointerType !== 'mouse' || !this.store.evaluated) return;
    try {
      this.nailPreview.show(
        this.nailNearPointer(
          this.store.evaluated.part,
          this.viewport.pointerPosition(event),
          reachFor(event),
        ),
      );
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      this.nailPreview.show(undefined);
    }
  }

  private nailNearPointer(part: Part, hand: Point, reach: number): NewNail | undefined {
    const { view } = this.viewport;
    return nailAtPointer(part, toPart(view, hand), reach / view.scale);
  }

  private placeNail(find: (part: Part) => NewNail): void {
    const nail = this.tryOnPart(find);
    if (nail && this.pushOrReject(this.textWith(nail))) this.handleLayer.focus(`${nail.key}[${nail.index}]`);
  }

  private removeHeldNail(): void {
    const { grip } = this.handleLayer;
    const text = grip && this.tryOnPart(() => this.textWithout(grip.key));
    // What stands there now comes to hand: the next nail, or the last one's neighbour.
    if (text !== undefined && this.pushOrReject(text)) this.handleLayer.focus(grip!.key);
  }

  private pushOrReject(text: string): boolean {
    const faults = this.store.pushIfValid(text);
    if (faults.length > 0) this.store.reject(faults);
    return faults.length === 0;
  }

  private readonly textWith = ({ key, index, typed }: NewNail): string =>
    insertNail(this.store.evaluated!.text, key, index, typed);

  private textWithout(key: string): string {
    const nail = parseNailKey(key);
    if (nail) return removeNail(this.store.evaluated!.text, nail.list, nail.index);
    const wording =
      'only nails of a batten and pins of a spline can be taken out: the line needs this place. Move it instead.';
    throw new Fault('nails.not-one', wording, key);
  }

  /** What comes of the part; or nothing, and it is told why. */
  private tryOnPart<T>(work: (part: Part) => T): T | undefined {
    const { evaluated, canEdit } = this.store;
    try {
      if (!evaluated || !canEdit) throw new Fault('nails.job', 'first put right what is wrong with the job.');
      return work(evaluated.part);
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      this.store.reject([toDiagnostic(error, new Map())]);
      return undefined;
    }
  }

  private draw(): void {
    const { evaluated } = this.store;
    const { grip, heldName } = this.handleLayer;
    if (grip) this.lastEdge = grip.edge;
    const what = evaluated ? settableKinds(evaluated.part).join(' or ') : '';
    if (this.placing && !what) this.setPlacing(false);
    updateText(this.setButton, `Set a ${what || 'nail'}`);
    const isNail = grip !== undefined && parseNailKey(grip.key) !== undefined;
    this.removeButton.hidden = !isNail;
    if (isNail) this.removeButton.setAttribute('aria-label', `Take it out: ${heldName}`);
  }
}
