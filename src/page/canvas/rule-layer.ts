import type { Point } from '../../curves/geometry/point.ts';
import { updateAttribute } from '../dom.ts';
import type { Store } from '../state/store.ts';
import { ticksBetween } from './rule-ticks.ts';
import { RULE_PX, type Viewport } from './viewport.ts';

const TICK_PX = 15;
/** The most characters that fit beside a mark of the upright rule. */
const MAX_FIGURES_BESIDE = 4;

export class RuleLayer {
  private pointed: Point | undefined;
  private readonly crosshair;
  private readonly rules;

  constructor(
    private readonly viewport: Viewport,
    private readonly store: Store,
  ) {
    const layer = viewport.layer('rules').attr('aria-hidden', 'true');
    this.rules = layer.group();
    this.crosshair = layer.path().addClass('hair');
    viewport.onViewChange(() => this.draw());
  }

  draw(): void {
    const { width, height } = this.viewport.view;
    const low = height - RULE_PX.across;
    this.rules.clear();
    this.rules.rect(width, RULE_PX.across).move(0, low).addClass('blade');
    this.rules.rect(RULE_PX.left, low).move(0, 0).addClass('blade');
    this.drawHorizontal(low);
    this.drawVertical(low);
    this.label(this.store.rule.unit, RULE_PX.left / 2, height - 13, 'middle');
    this.pointAt(this.pointed);
  }

  pointAt(place: Point | undefined): void {
    this.pointed = place;
    const { x, y } = this.viewport.toScreen(place ?? { x: 0, y: 0 });
    const from = this.viewport.view.height - RULE_PX.across + TICK_PX;
    const hair = place ? `M${x} ${from}V${y}H${RULE_PX.left - TICK_PX}` : 'M0 0';
    updateAttribute(this.crosshair.node, 'd', hair);
  }

  private drawHorizontal(low: number): void {
    const { view } = this.viewport;
    const from = this.viewport.toPart({ x: RULE_PX.left, y: 0 }).x;
    const to = this.viewport.toPart({ x: view.width, y: 0 }).x;
    let marks = `M${RULE_PX.left} ${low}H${view.width}`;
    for (const { mm, share, label } of ticksBetween(from, to, view.scale, this.store.rule)) {
      const { x } = this.viewport.toScreen({ x: mm, y: 0 });
      marks += `M${x} ${low}v${TICK_PX * share}`;
      if (label !== undefined) this.label(label, x, low + 32, 'middle');
    }
    this.rules.path().attr('d', marks).addClass('marks');
  }

  private drawVertical(low: number): void {
    const { view } = this.viewport;
    const from = this.viewport.toPart({ x: 0, y: low }).y;
    const to = this.viewport.toPart({ x: 0, y: 0 }).y;
    let marks = `M${RULE_PX.left} ${low}V0`;
    for (const { mm, share, label } of ticksBetween(from, to, view.scale, this.store.rule)) {
      const { y } = this.viewport.toScreen({ x: 0, y: mm });
      marks += `M${RULE_PX.left} ${y}h${-TICK_PX * share}`;
      if (label === undefined || y <= 12 || y >= low - 6) continue;
      // A long number is placed above its mark, which leaves no room beside it.
      if (label.length > MAX_FIGURES_BESIDE) this.label(label, RULE_PX.left - 3, y - 4, 'end');
      else this.label(label, RULE_PX.left - TICK_PX - 3, y + 5, 'end');
    }
    this.rules.path().attr('d', marks).addClass('marks');
  }

  private label(text: string, x: number, y: number, anchor: 'middle' | 'end'): void {
    this.rules.plain(text).attr({ x, y, 'text-anchor': anchor });
  }
}
