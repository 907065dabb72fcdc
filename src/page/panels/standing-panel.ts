import { SVG, type Svg } from '@svgdotjs/svg.js';
import type { Point } from '../../curves/geometry/point.ts';
import { type StandingView, standingViews } from '../../part/ends/standing-views.ts';
import { standingWords } from '../../shop/words/foot-out-words.ts';
import { showAngle } from '../../units/number-format.ts';
import { byId, el, updateText } from '../dom.ts';
import type { Store } from '../state/store.ts';

/** Of the picture, in its own units; the stylesheet has the type size in them. */
const WIDTH = 160;
const HEIGHT = 120;
const HEAD = 22;
const FOOT = 14;
const SIDE = 22;

/** A leg as it stands on the floor, beside the figures. */
export class StandingPanel {
  private readonly host = byId('standing');
  private readonly caption = el('figcaption', { class: 'hint' });
  private readonly svg: Svg;

  constructor(private readonly store: Store) {
    this.svg = SVG().viewbox(0, 0, WIDTH, HEIGHT);
    this.host.append(this.svg.node, this.caption);
    store.onIdle(() => this.draw());
  }

  private draw(): void {
    const { evaluated, lengthText } = this.store;
    const views = evaluated ? standingViews(evaluated.part) : [];
    const told = evaluated && standingWords(evaluated.part, lengthText);
    this.host.hidden = views.length === 0;
    if (views.length === 0 || told === undefined) return;
    this.svg.clear().attr({ role: 'img', 'aria-label': told });
    updateText(this.caption, told);
    const each = WIDTH / views.length;
    const height = Math.max(...views.map((view) => view.height));
    const k = Math.min(
      (HEIGHT - HEAD - FOOT) / height,
      (each - 2 * SIDE) /
        Math.max(...views.map(({ outline, along }) => spread([...outline, ...along]).width)),
    );
    this.svg.path(`M0 ${HEIGHT - FOOT}H${WIDTH}`);
    for (const [i, view] of views.entries()) this.drawView(view, k, (i + 0.5) * each);
  }

  private drawView(view: StandingView, k: number, middle: number): void {
    const { outline, along, out, from, toward, height } = view;
    const center = spread([...outline, ...along]).center;
    const at = ({ x, y }: Point): string => `${middle + k * (x - center)} ${HEIGHT - FOOT - k * y}`;
    this.text(from === 'front' ? 'from the front' : 'from the side', middle, 7);
    this.text(`${from === 'front' ? 'reference face' : `“${toward}”`} toward you`, middle, 15);
    this.svg.path(`M${outline.map(at).join('L')}Z`);
    if (!out) return;
    const [, top] = along;
    this.svg.path(`M${at({ x: top.x, y: 0 })}L${at({ x: top.x, y: height })}`).addClass('plumb');
    this.text(`${showAngle(out.by)}, ${this.store.lengthText(out.distance)}`, middle, HEIGHT - 4);
  }

  private text(text: string, x: number, y: number): void {
    this.svg.plain(text).attr({ x, y, 'text-anchor': 'middle' });
  }
}

function spread(points: readonly Point[]): { readonly width: number; readonly center: number } {
  const xs = points.map(({ x }) => x);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  return { width: right - left, center: (left + right) / 2 };
}
