import type { Point } from '../../curves/geometry/point.ts';
import { editJob } from '../../job/edit/edit-job.ts';
import type { Grip } from '../../part/edit/draggable-points.ts';
import { gripMoved } from '../../part/edit/snap-to-rule.ts';
import type { EvaluatedJob } from '../state/evaluate-job.ts';
import type { Store } from '../state/store.ts';
import type { HandleLayer } from './handle-layer.ts';
import type { NailTools } from './nail-tools.ts';
import { reachFor, type Viewport } from './viewport.ts';

const ZOOM_PER_WHEEL_PX = 1.0015;

interface DraggedHandle {
  readonly pointer: number;
  readonly handle: Grip;
  readonly evaluated: EvaluatedJob;
  readonly textBefore: string;
  /** Where the drag began on the part: the handle moves as far as the pointer and does not jump to it. */
  readonly from: Point;
  to: Point | undefined;
}

export class PointerDrag {
  private hold: DraggedHandle | undefined;
  private frame = 0;
  /** Pointers on the bare sheet: one pans, two zoom. */
  private readonly sheetPointers = new Map<number, Point>();

  constructor(
    private readonly viewport: Viewport,
    private readonly store: Store,
    private readonly handleLayer: HandleLayer,
    private readonly nailTools: NailTools,
  ) {
    const { node } = viewport.svg;
    node.addEventListener('pointerdown', (event) => this.onPointerDown(event));
    node.addEventListener('pointermove', (event) => this.onPointerMove(event));
    node.addEventListener('pointerup', (event) => this.onPointerUp(event));
    node.addEventListener('pointercancel', (event) => this.onPointerUp(event));
    node.addEventListener('wheel', (event) => this.onWheel(event), { passive: false });
    const onKey = (event: KeyboardEvent): void => {
      if (event.key === 'Escape' && this.hold) this.cancel(event, this.hold);
    };
    window.addEventListener('keydown', onKey, { capture: true });
    // After an undo or another job the drag belongs to a text that no longer exists.
    store.onChange(() => {
      if (this.hold && store.previewText === undefined) this.end();
    });
  }

  private onPointerDown(event: PointerEvent): void {
    if (event.button !== 0 || this.hold) return;
    const at = this.viewport.pointerPosition(event);
    const reach = reachFor(event);
    const textBefore = this.store.text;
    // A second finger takes hold of nothing.
    const handle = this.sheetPointers.size > 0 ? undefined : this.handleAt(at, reach);
    this.viewport.svg.node.setPointerCapture(event.pointerId);
    event.preventDefault();
    if (!handle) {
      this.sheetPointers.set(event.pointerId, at);
      return;
    }
    this.viewport.svg.node.classList.add('dragging');
    this.handleLayer.focus(handle.key);
    this.handleLayer.hold(handle.key);
    const [evaluated, from] = [this.store.shown, this.viewport.toPart(at)];
    this.hold = { pointer: event.pointerId, handle, evaluated, textBefore, from, to: undefined };
  }

  private handleAt(at: Point, reach: number): Grip | undefined {
    return this.nailTools.isPlacing
      ? this.nailTools.placeNailAt(at, reach)
      : this.handleLayer.nearestHandle(at, reach);
  }

  private onPointerMove(event: PointerEvent): void {
    const at = this.viewport.pointerPosition(event);
    if (this.hold?.pointer === event.pointerId) {
      this.hold.to = at;
      // The pointer may move more often than the screen is drawn.
      this.frame ||= requestAnimationFrame(() => this.moveHandle());
      return;
    }
    const last = this.sheetPointers.get(event.pointerId);
    if (last) this.panOrPinch(event.pointerId, last, at);
  }

  private moveHandle(): void {
    this.frame = 0;
    if (!this.hold?.to) return;
    const { handle, evaluated, from } = this.hold;
    const to = this.viewport.toPart(this.hold.to);
    const place = { x: handle.at.x + to.x - from.x, y: handle.at.y + to.y - from.y };
    const text = editJob(evaluated.text, gripMoved(handle, place, evaluated.part));
    if (text !== this.store.previewText) this.store.preview(text);
  }

  private onPointerUp(event: PointerEvent): void {
    this.sheetPointers.delete(event.pointerId);
    if (this.hold?.pointer !== event.pointerId) return;
    if (event.type === 'pointercancel') {
      this.cancel(event, this.hold);
      return;
    }
    cancelAnimationFrame(this.frame);
    this.moveHandle();
    this.end();
    this.store.commit();
  }

  private cancel(event: Event, { textBefore }: DraggedHandle): void {
    event.stopPropagation();
    this.end();
    this.store.preview(textBefore);
    this.store.commit();
  }

  private end(): void {
    cancelAnimationFrame(this.frame);
    this.frame = 0;
    this.hold = undefined;
    this.viewport.svg.node.classList.remove('dragging');
  }

  private panOrPinch(pointer: number, last: Point, at: Point): void {
    this.sheetPointers.set(pointer, at);
    const [, other] = [...this.sheetPointers].find(([id]) => id !== pointer) ?? [];
    if (!other) {
      this.viewport.pan(at.x - last.x, at.y - last.y);
      return;
    }
    const spread = (a: Point): number => Math.hypot(a.x - other.x, a.y - other.y);
    const middle = { x: (at.x + other.x) / 2, y: (at.y + other.y) / 2 };
    this.viewport.pan((at.x - last.x) / 2, (at.y - last.y) / 2);
    this.viewport.zoom(spread(at) / Math.max(spread(last), 1), middle);
  }

  /** With ctrl, as a touch pad sends a pinch. A bare wheel scrolls the page. */
  private onWheel(event: WheelEvent): void {
    if (!event.ctrlKey && !event.metaKey) return;
    event.preventDefault();
    this.viewport.zoom(ZOOM_PER_WHEEL_PX ** -event.deltaY, this.viewport.pointerPosition(event));
  }
}
