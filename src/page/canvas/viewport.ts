import { type Element, type G, SVG, type Svg } from '@svgdotjs/svg.js';
import type { Box } from '../../curves/geometry/bounds.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { fitted, panned, toScreen, type View, zoomed } from './view-transform.ts';

/** The layers of the drawing, from the paper up. */
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
export type Layer = (typeof LAYERS)[number];

/** The rules along the sheet's left and lower sides, px. */
export const RULE_PX = { across: 40, left: 50 } as const;
/** White between the part and the rules: a finger's breadth for what hangs off its line. */
const WHITE_PX = 44;
/** From the middle of what stands on the part to its side: nearer to the sheet's own side it is cut off. */
const GRIP_PX = 11;
/** A part that could be drawn so many times as large has shrunk. */
const SHRUNK = 2;
/** Over the part: there the words of what is in hand stand, clear of the finger. */
export const HEAD_PX = 52;
/** Nothing smaller is drawn into: a pane that is folded away. */
const LEAST_PX = 40;

/** How near the pointer must come to take hold, px: a mouse is surer than a finger. */
const REACH_PX = { mouse: 18, other: 30 } as const;

export const reachOf = ({ pointerType }: PointerEvent): number =>
  pointerType === 'mouse' ? REACH_PX.mouse : REACH_PX.other;

/** The sheet that the part is drawn on: its layers, and how the part lies on the screen. */
export class Stage {
  readonly svg: Svg;
  view: View;
  private readonly layers = new Map<Layer, G>();
  private readonly onView: (() => void)[] = [];
  /** The hand has chosen how to look: the view stays when the window changes. */
  private isChosen = false;

  constructor(
    private readonly host: HTMLElement,
    private bounds: Box,
  ) {
    this.svg = SVG().addTo(host);
    for (const layer of LAYERS) this.layers.set(layer, this.svg.group().addClass(layer));
    this.view = this.wholePart();
    new ResizeObserver(() => this.resized()).observe(host);
  }

  layer(name: Layer): G {
    return this.layers.get(name)!;
  }

  /** Called whenever the part lies otherwise on the screen. */
  moved(listener: () => void): void {
    this.onView.push(listener);
  }

  /** The part as large as the sheet lets it be. */
  fit(bounds = this.bounds): void {
    this.bounds = bounds;
    this.isChosen = false;
    this.look(this.wholePart());
  }

  /** Fits a part that has grown off the sheet or shrunk to a corner of it, unless the hand chose how to look. */
  keepInSight(bounds: Box): void {
    const { width, height, scale } = this.view;
    const [low, high] = [
      toScreen(this.view, { x: bounds.left, y: bounds.bottom }),
      toScreen(this.view, { x: bounds.right, y: bounds.top }),
    ];
    const isInside =
      low.x >= RULE_PX.left + GRIP_PX &&
      high.x <= width - GRIP_PX &&
      high.y >= GRIP_PX &&
      low.y <= height - RULE_PX.across - GRIP_PX;
    this.bounds = bounds;
    if (!this.isChosen && !(isInside && this.wholePart().scale < scale * SHRUNK)) this.fit();
  }

  zoom(factor: number, about?: Point): void {
    const { width, height } = this.view;
    this.isChosen = true;
    this.look(zoomed(this.view, about ?? { x: width / 2, y: height / 2 }, factor));
  }

  pan(x: number, y: number): void {
    this.isChosen = true;
    this.look(panned(this.view, x, y));
  }

  /** A place of the pointer on the sheet, px. */
  placeOf({ clientX, clientY }: { readonly clientX: number; readonly clientY: number }): Point {
    const { left, top } = this.svg.node.getBoundingClientRect();
    return { x: clientX - left, y: clientY - top };
  }

  /** Where words have their middle: at a place, or as near to it as keeps them between the rule and the right side. */
  middleFor(x: number, width: number): number {
    return Math.max(Math.min(x, this.view.width - width / 2), RULE_PX.left + width / 2);
  }

  /** Puts what is drawn in part mm, y down, where the part lies. */
  place(group: Element): void {
    const { scale, origin } = this.view;
    group.attr('transform', `translate(${origin.x} ${origin.y}) scale(${scale})`);
  }

  private wholePart(): View {
    const { clientWidth, clientHeight } = this.host;
    const margins = {
      left: RULE_PX.left + WHITE_PX / 2,
      right: WHITE_PX,
      top: HEAD_PX,
      bottom: RULE_PX.across + WHITE_PX / 2,
    };
    return fitted(this.bounds, Math.max(clientWidth, LEAST_PX), Math.max(clientHeight, LEAST_PX), margins);
  }

  private resized(): void {
    const { clientWidth: width, clientHeight: height } = this.host;
    if (width === this.view.width && height === this.view.height) return;
    this.look(this.isChosen ? { ...this.view, width, height } : this.wholePart());
  }

  private look(view: View): void {
    this.view = view;
    this.svg.attr({ width: view.width, height: view.height, viewBox: `0 0 ${view.width} ${view.height}` });
    for (const listener of this.onView) listener();
  }
}
