import type { Point } from '../../curves/geometry/point.ts';
import { pathData } from '../../export/writers/svg.ts';
import type { Bench } from '../state/store.ts';
import { toScreen } from './view-transform.ts';
import type { Stage } from './viewport.ts';

/** A place to show on the drawing: a point, or a whole edge where nothing nearer is known. */
export interface Spot {
  readonly at?: Point | undefined;
  readonly edge?: string | undefined;
}

const RING_PX = 16;

/** Shows on the drawing what is spoken of beside it. */
export class Places {
  private readonly world;
  private readonly ring;
  /** What is pointed at or has the keyboard, and where its place is by now. */
  private shown: { readonly node: Node; readonly spot: () => Spot | undefined } | undefined;

  constructor(
    private readonly stage: Stage,
    private readonly bench: Bench,
  ) {
    this.world = stage.layer('places').path().addClass('edge');
    this.ring = stage
      .layer('places')
      .circle(2 * RING_PX)
      .addClass('ring');
    stage.moved(() => this.draw());
    this.draw();
  }

  /** To be called once what was attached may speak of another place, or is gone from the page. */
  follow(): void {
    if (this.shown) this.draw();
  }

  /** Makes a part of the page show its place while it is pointed at or has the keyboard. */
  attach(node: HTMLElement, spot: () => Spot | undefined): void {
    const show = (shown: typeof this.shown): void => {
      this.shown = shown;
      this.draw();
    };
    for (const name of ['pointerenter', 'focusin', 'click'])
      node.addEventListener(name, () => show({ node, spot }));
    for (const name of ['pointerleave', 'focusout']) node.addEventListener(name, () => show(undefined));
  }

  private draw(): void {
    if (this.shown && !this.shown.node.isConnected) this.shown = undefined;
    const { at, edge } = this.shown?.spot() ?? {};
    this.ring.attr('visibility', at ? 'visible' : 'hidden');
    if (at) {
      const { x, y } = toScreen(this.stage.view, at);
      this.ring.center(x, y);
    }
    const runs = at ? [] : (this.bench.made?.part.edges.filter(({ name }) => name === edge) ?? []);
    this.world.attr('d', pathData(runs.flatMap(({ runs: all }) => all.flatMap(({ path }) => path))));
    this.stage.place(this.world);
  }
}
