import { type Element, type G, SVG, type Svg } from '@svgdotjs/svg.js';
import type { Box } from '../../curves/geometry/bounds.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { fitView, panView, toPart, toScreen, type ViewTransform, zoomView } from './view-transform.ts';

const LAYERS = [
  'sheets',
  'comb',
  'beside',
  'lines',
  'measured',
  'apexes',
  'places',
  'setting',
  'rules',
  'grips',
  'notes',
] as const;
type CanvasLayer = (typeof LAYERS)[number];

export const RULE_PX = { across: 40, left: 50 } as const;
/** White between the part and the rules: a finger's breadth for handles and labels. */
const MARGIN_PX = 44;
/** Half the width of a handle: nearer to the edge of the sheet it is cut off. */
const HANDLE_HALF_PX = 11;
/** A part that could be drawn this many times as large has shrunk. */
const SHRINK_FACTOR = 2;
/** Room above the part for the held handle's reading, clear of the finger. */
export const HEADROOM_PX = 52;
/** A pane that is folded away has no size. */
const MIN_SIZE_PX = 40;

/** How near the pointer must come to take hold, px: a mouse is more precise than a finger. */
const REACH_PX = { mouse: 18, other: 30 } as const;

export const reachFor = ({ pointerType }: PointerEvent): number =>
  pointerType === 'mouse' ? REACH_PX.mouse : REACH_PX.other;

export class Viewport {
  readonly svg: Svg;
  view: ViewTransform;
  private readonly layers;
  private readonly viewListeners: (() => void)[] = [];
  /** The user panned or zoomed: the view stays when the window changes. */
  private isUserView = false;

  constructor(
    private readonly host: HTMLElement,
    private bounds: Box,
  ) {
    this.svg = SVG().addTo(host);
    const layers = LAYERS.map((layer) => [layer, this.svg.group().addClass(layer)]);
    this.layers = Object.fromEntries(layers) as Readonly<Record<CanvasLayer, G>>;
    this.view = this.viewOfWholePart();
    new ResizeObserver(() => this.followResize()).observe(host);
  }

  layer(name: CanvasLayer): G {
    return this.layers[name];
  }

  readonly toScreen = (place: Point): Point => toScreen(this.view, place);
  readonly toPart = (place: Point): Point => toPart(this.view, place);

  onViewChange(listener: () => void): void {
    this.viewListeners.push(listener);
  }

  fit(bounds = this.bounds): void {
    this.bounds = bounds;
    this.isUserView = false;
    this.setView(this.viewOfWholePart());
  }

  /** Fits a part that has grown off the sheet or shrunk into a corner, unless the user chose the view. */
  keepInSight(bounds: Box): void {
    const { width, height, scale } = this.view;
    const low = this.toScreen({ x: bounds.left, y: bounds.bottom });
    const high = this.toScreen({ x: bounds.right, y: bounds.top });
    const isInside =
      low.x >= RULE_PX.left + HANDLE_HALF_PX &&
      high.x <= width - HANDLE_HALF_PX &&
      high.y >= HANDLE_HALF_PX &&
      low.y <= height - RULE_PX.across - HANDLE_HALF_PX;
    this.bounds = bounds;
    if (!this.isUserView && !(isInside && this.viewOfWholePart().scale < scale * SHRINK_FACTOR)) this.fit();
  }

  zoom(factor: number, about?: Point): void {
    const { width, height } = this.view;
    this.isUserView = true;
    this.setView(zoomView(this.view, about ?? { x: width / 2, y: height / 2 }, factor));
  }

  pan(x: number, y: number): void {
    this.isUserView = true;
    this.setView(panView(this.view, x, y));
  }

  pointerPosition({ clientX, clientY }: { readonly clientX: number; readonly clientY: number }): Point {
    const { left, top } = this.svg.node.getBoundingClientRect();
    return { x: clientX - left, y: clientY - top };
  }

  /** The x of a label's middle, moved as little as keeps it between the rule and the right side. */
  labelMiddle(x: number, width: number): number {
    return Math.max(Math.min(x, this.view.width - width / 2), RULE_PX.left + width / 2);
  }

  alignToPart(group: Element): void {
    const { scale, origin } = this.view;
    group.attr('transform', `translate(${origin.x} ${origin.y}) scale(${scale})`);
  }

  private viewOfWholePart(): ViewTransform {
    const { clientWidth, clientHeight } = this.host;
    const [width, height] = [Math.max(clientWidth, MIN_SIZE_PX), Math.max(clientHeight, MIN_SIZE_PX)];
    return fitView(this.bounds, width, height, {
      left: RULE_PX.left + MARGIN_PX / 2,
      right: MARGIN_PX,
      top: HEADROOM_PX,
      bottom: RULE_PX.across + MARGIN_PX / 2,
    });
  }

  private followResize(): void {
    const { clientWidth: width, clientHeight: height } = this.host;
    if (width === this.view.width && height === this.view.height) return;
    this.setView(this.isUserView ? { ...this.view, width, height } : this.viewOfWholePart());
  }

  private setView(view: ViewTransform): void {
    this.view = view;
    this.svg.attr({ width: view.width, height: view.height, viewBox: `0 0 ${view.width} ${view.height}` });
    for (const listener of this.viewListeners) listener();
  }
}
