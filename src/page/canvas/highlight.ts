import type { Point } from '../../curves/geometry/point.ts';
import { pathData } from '../../export/writers/svg.ts';
import type { Store } from '../state/store.ts';
import type { Viewport } from './viewport.ts';

export type HighlightTarget = { readonly at?: Point | undefined; readonly edge?: string | undefined };

const RING_PX = 16;

export class Highlight {
  private readonly edgePath;
  private readonly ring;
  private active: { readonly node: Node; readonly spot: () => HighlightTarget | undefined } | undefined;

  constructor(
    private readonly viewport: Viewport,
    private readonly store: Store,
  ) {
    this.edgePath = viewport.layer('places').path().addClass('edge');
    this.ring = viewport.layer('places').circle().radius(RING_PX).addClass('ring');
    viewport.onViewChange(() => this.draw());
    this.draw();
  }

  /** For when an attached element may refer to another place or has left the page. */
  refresh(): void {
    if (this.active) this.draw();
  }

  attach(node: HTMLElement, spot: () => HighlightTarget | undefined): void {
    const show = (shown: typeof this.active): void => {
      this.active = shown;
      this.draw();
    };
    for (const name of ['pointerenter', 'focusin', 'click'])
      node.addEventListener(name, () => show({ node, spot }));
    for (const name of ['pointerleave', 'focusout']) node.addEventListener(name, () => show(undefined));
  }

  private draw(): void {
    if (this.active && !this.active.node.isConnected) this.active = undefined;
    const { at, edge } = this.active?.spot() ?? {};
    this.ring.attr('visibility', at ? 'visible' : 'hidden');
    if (at) {
      const { x, y } = this.viewport.toScreen(at);
      this.ring.center(x, y);
    }
    const runs = at ? [] : (this.store.evaluated?.part.edges.filter(({ name }) => name === edge) ?? []);
    this.edgePath.attr('d', pathData(runs.flatMap(({ path }) => path)));
    this.viewport.alignToPart(this.edgePath);
  }
}
