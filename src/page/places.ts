import type { Point } from '../curves/point.ts';
import { pathData } from '../export/svg.ts';
import type { Bench } from './bench.ts';
import type { Stage } from './stage.ts';
import { toScreen } from './view.ts';

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
  private spot: Spot | undefined;

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
    bench.changed(() => {
      if (this.spot) this.draw();
    });
    this.draw();
  }

  show(spot: Spot | undefined): void {
    this.spot = spot;
    this.draw();
  }

  /** Makes a part of the page show its place while it is pointed at or has the keyboard. */
  attach(node: HTMLElement, spot: () => Spot | undefined): void {
    const on = (): void => this.show(spot());
    const off = (): void => this.show(undefined);
    for (const name of ['pointerenter', 'focus', 'click']) node.addEventListener(name, on);
    for (const name of ['pointerleave', 'blur']) node.addEventListener(name, off);
  }

  private draw(): void {
    const { at, edge } = this.spot ?? {};
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
