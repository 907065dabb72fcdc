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
import { catchFault, Fault } from '../../units/fault.ts';
import { byId, updateText } from '../dom.ts';
import { toDiagnostic } from '../state/evaluate-job.ts';
import type { Store } from '../state/store.ts';
import type { HandleLayer } from './handle-layer.ts';
import { NailPreview } from './nail-preview.ts';
import { reachFor, type Viewport } from './viewport.ts';

/** "nail or point": what the curves of a part take. */
const settableWords = (part: Part | undefined): string => (part ? settableKinds(part).join(' or ') : '');

export class NailTools {
  isPlacing = false;
  /** The edge of the last held handle: a nail set by keyboard goes there. */
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

  placeNailAt(pointer: Point, reach: number): Grip | undefined {
    // Release the held handle first: losing it would end the step that begins here.
    this.handleLayer.release();
    const nail = this.tryOnPart((part) => this.nailNearPointer(part, pointer, reach));
    if (!nail) return undefined;
    this.store.preview(this.textWith(nail));
    const { faults } = this.store;
    if (faults.length > 0) {
      this.store.commit();
      this.store.reject(faults);
      return undefined;
    }
    this.setPlacing(false);
    return this.store.evaluated?.handles.find(({ key }) => key === `${nail.key}[${nail.index}]`);
  }

  private listen(): void {
    const { node } = this.viewport.svg;
    this.setButton.addEventListener('click', ({ detail }) => {
      // A keyboard click touches no curve: the nail is set at once, and the arrow keys move it.
      if (detail === 0) this.placeNail((part) => nailInWidestGap(part, this.lastEdge));
      else this.setPlacing(!this.isPlacing);
    });
    this.removeButton.addEventListener('click', () => this.removeHeldNail());
    const own = byId('nails');
    // Pressing a button keeps the nail held.
    own.addEventListener('mousedown', (event) => event.preventDefault());
    own.addEventListener('focusout', ({ relatedTarget }) => {
      const stays = relatedTarget instanceof Element && relatedTarget.closest('#nails, .grip');
      if (!stays) this.handleLayer.hold(undefined);
    });
    node.addEventListener('keydown', (event) => this.key(event));
    node.addEventListener('pointermove', (event) => this.previewNail(event));
    node.addEventListener('pointerleave', () => this.nailPreview.show(undefined));
    window.addEventListener('keydown', ({ key }) => {
      if (key === 'Escape' && this.isPlacing) this.setPlacing(false);
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

  private setPlacing(isSetting: boolean): void {
    // Say at once if no curve takes a nail.
    if (isSetting && !this.tryOnPart((part) => nailInWidestGap(part))) return;
    this.isPlacing = isSetting;
    this.setButton.setAttribute('aria-pressed', String(isSetting));
    updateText(
      byId('nail-said'),
      isSetting
        ? `Click or touch the curve where you want the ${settableWords(this.store.evaluated?.part)}.`
        : '',
    );
    this.nailPreview.setActive(isSetting);
  }

  private previewNail(event: PointerEvent): void {
    const { evaluated } = this.store;
    if (!this.isPlacing || event.pointerType !== 'mouse' || !evaluated) return;
    const pointer = this.viewport.pointerPosition(event);
    const near = () => this.nailNearPointer(evaluated.part, pointer, reachFor(event));
    this.nailPreview.show(catchFault(near, () => undefined));
  }

  private nailNearPointer(part: Part, pointer: Point, reach: number): NewNail | undefined {
    return nailAtPointer(part, this.viewport.toPart(pointer), reach / this.viewport.view.scale);
  }

  private placeNail(find: (part: Part) => NewNail): void {
    const nail = this.tryOnPart(find);
    if (nail && this.store.pushOrReject(this.textWith(nail)))
      this.handleLayer.focus(`${nail.key}[${nail.index}]`);
  }

  private removeHeldNail(): void {
    const { grip } = this.handleLayer;
    if (!grip) return;
    const text = this.tryOnPart(() => this.textWithout(grip.key));
    // The nail that takes its place is held next.
    if (text !== undefined && this.store.pushOrReject(text)) this.handleLayer.focus(grip.key);
  }

  private readonly textWith = ({ key, index, typed }: NewNail): string =>
    insertNail(this.store.shown.text, key, index, typed);

  private textWithout(key: string): string {
    const nail = parseNailKey(key);
    if (nail) return removeNail(this.store.shown.text, nail.list, nail.index);
    const wording =
      'You can remove only nails of a batten and points of a spline. The curve needs this point. Move it instead.';
    throw new Fault('nails.not-one', wording, key);
  }

  private tryOnPart<T>(work: (part: Part) => T): T | undefined {
    const { evaluated, canEdit } = this.store;
    const onPart = (): T => {
      if (!evaluated || !canEdit) throw new Fault('nails.job', 'Fix the mistakes in the job first.');
      return work(evaluated.part);
    };
    return catchFault(onPart, (fault) => void this.store.reject([toDiagnostic(fault)]));
  }

  private draw(): void {
    const { evaluated } = this.store;
    const { grip, heldName } = this.handleLayer;
    if (grip) this.lastEdge = grip.edge;
    const what = settableWords(evaluated?.part);
    if (this.isPlacing && !what) this.setPlacing(false);
    updateText(this.setButton, `Add a ${what || 'nail'}`);
    const isNail = grip !== undefined && parseNailKey(grip.key) !== undefined;
    this.removeButton.hidden = !isNail;
    if (isNail) this.removeButton.setAttribute('aria-label', `Remove: ${heldName}`);
  }
}
