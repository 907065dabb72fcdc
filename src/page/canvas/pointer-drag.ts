import type { Point } from '../../curves/geometry/point.ts';
import { editJob } from '../../job/edit/edit-job.ts';
import { type Grip, gripMoved } from '../../part/edit/draggable-points.ts';
import type { Made } from '../state/evaluate-job.ts';
import type { Bench } from '../state/store.ts';
import type { Handles } from './handle-layer.ts';
import type { Nails } from './nail-tools.ts';
import { toPart } from './view-transform.ts';
import { reachOf, type Stage } from './viewport.ts';

/** One notch of a wheel. */
const NOTCH = 1.0015;

interface Hold {
  readonly pointer: number;
  readonly grip: Grip;
  readonly made: Made;
  /** The job before: Escape goes back to it. */
  readonly before: string;
  /** Where on the part the pointer took hold: the grip moves as far as the pointer, it does not jump under it. */
  readonly from: Point;
  /** Where the pointer is by now, px; nowhere else before it has moved. */
  to: Point | undefined;
}

/** The hand on the sheet: it drags what it takes hold of, and moves the sheet where it takes hold of nothing. */
export class Drag {
  private hold: Hold | undefined;
  private frame = 0;
  /** Pointers on the bare sheet: one moves it, two spread it. */
  private readonly on = new Map<number, Point>();

  constructor(
    private readonly stage: Stage,
    private readonly bench: Bench,
    private readonly handles: Handles,
    private readonly nails: Nails,
  ) {
    const { node } = stage.svg;
    node.addEventListener('pointerdown', (event) => this.down(event));
    node.addEventListener('pointermove', (event) => this.move(event));
    node.addEventListener('pointerup', (event) => this.up(event));
    node.addEventListener('pointercancel', (event) => this.up(event));
    node.addEventListener('wheel', (event) => this.wheel(event), { passive: false });
    window.addEventListener(
      'keydown',
      (event) => {
        if (event.key === 'Escape' && this.hold) this.cancel(event);
      },
      { capture: true },
    );
    // Undone, stepped or another job opened meanwhile: what the hand holds is of a text that is no more.
    bench.changed(() => {
      if (this.hold && bench.tried === undefined) this.end();
    });
  }

  private down(event: PointerEvent): void {
    if (event.button !== 0 || this.hold) return;
    const at = this.stage.placeOf(event);
    const reach = reachOf(event);
    const before = this.bench.text;
    // A second finger on the sheet takes hold of nothing.
    const grip = this.on.size > 0 ? undefined : this.gripAt(at, reach);
    this.stage.svg.node.setPointerCapture(event.pointerId);
    event.preventDefault();
    if (!grip) {
      this.on.set(event.pointerId, at);
      return;
    }
    this.stage.svg.node.classList.add('dragging');
    this.handles.focus(grip.key);
    this.handles.point(grip.key);
    const [made, from] = [this.bench.made!, toPart(this.stage.view, at)];
    this.hold = { pointer: event.pointerId, grip, made, before, from, to: undefined };
  }

  private gripAt(at: Point, reach: number): Grip | undefined {
    return this.nails.isSetting ? this.nails.setAt(at, reach) : this.handles.nearest(at, reach);
  }

  private move(event: PointerEvent): void {
    const at = this.stage.placeOf(event);
    if (this.hold?.pointer === event.pointerId) {
      this.hold.to = at;
      // The pointer may move more often than the screen is drawn.
      this.frame ||= requestAnimationFrame(() => this.follow());
    } else if (this.on.has(event.pointerId)) this.moveSheet(event.pointerId, at);
  }

  private follow(): void {
    this.frame = 0;
    if (!this.hold?.to) return;
    const { grip, made, from } = this.hold;
    const to = toPart(this.stage.view, this.hold.to);
    const place = { x: grip.at.x + to.x - from.x, y: grip.at.y + to.y - from.y };
    const text = editJob(made.text, gripMoved(grip, place, made.part));
    if (text !== this.bench.tried) this.bench.try(text);
  }

  private up(event: PointerEvent): void {
    this.on.delete(event.pointerId);
    if (this.hold?.pointer !== event.pointerId) return;
    if (event.type === 'pointercancel') {
      this.cancel(event);
      return;
    }
    cancelAnimationFrame(this.frame);
    this.follow();
    this.end();
    this.bench.letGo();
  }

  private cancel(event: Event): void {
    event.stopPropagation();
    const { before } = this.hold!;
    this.end();
    this.bench.try(before);
    this.bench.letGo();
  }

  private end(): void {
    cancelAnimationFrame(this.frame);
    this.frame = 0;
    this.hold = undefined;
    this.stage.svg.node.classList.remove('dragging');
  }

  private moveSheet(pointer: number, at: Point): void {
    const last = this.on.get(pointer)!;
    this.on.set(pointer, at);
    const [other] = [...this.on].filter(([id]) => id !== pointer).map(([, place]) => place);
    if (!other) {
      this.stage.pan(at.x - last.x, at.y - last.y);
      return;
    }
    const spread = (a: Point): number => Math.hypot(a.x - other.x, a.y - other.y);
    const middle = { x: (at.x + other.x) / 2, y: (at.y + other.y) / 2 };
    this.stage.pan((at.x - last.x) / 2, (at.y - last.y) / 2);
    this.stage.zoom(spread(at) / Math.max(spread(last), 1), middle);
  }

  /** With ctrl, as the pad's two fingers send it; a bare wheel moves the page, which goes on below the sheet. */
  private wheel(event: WheelEvent): void {
    if (!event.ctrlKey && !event.metaKey) return;
    event.preventDefault();
    this.stage.zoom(NOTCH ** -event.deltaY, this.stage.placeOf(event));
  }
}
