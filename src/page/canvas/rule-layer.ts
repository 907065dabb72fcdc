import type { Point } from '../../curves/geometry/point.ts';
import { put } from '../dom.ts';
import type { Bench } from '../state/store.ts';
import { ticksBetween } from './rule-ticks.ts';
import { toPart, toScreen } from './view-transform.ts';
import { RULE_PX, type Stage } from './viewport.ts';

const TICK_PX = 15;
/** So many figures stand beside a mark of the upright rule. */
const FIGURES = 4;

/** A rule along the lower side and one up the left side, with a hair at the place in hand. */
export class RuleLayer {
  private place: Point | undefined;
  private readonly hair;
  private readonly rules;

  constructor(
    private readonly stage: Stage,
    private readonly bench: Bench,
  ) {
    const layer = stage.layer('rules').attr('aria-hidden', 'true');
    this.rules = layer.group();
    this.hair = layer.path().addClass('hair');
    stage.moved(() => this.draw());
  }

  /** The rules as they lie; to be called when the unit or the view has changed. */
  draw(): void {
    const { width, height } = this.stage.view;
    const low = height - RULE_PX.across;
    this.rules.clear();
    this.rules.rect(width, RULE_PX.across).move(0, low).addClass('blade');
    this.rules.rect(RULE_PX.left, low).move(0, 0).addClass('blade');
    this.across(low);
    this.upward(low);
    this.rules
      .plain(this.bench.rule.unit)
      .attr({ x: RULE_PX.left / 2, y: height - 13 })
      .addClass('middle');
    this.point(this.place);
  }

  /** Shows where a place stands on both rules. */
  point(place: Point | undefined): void {
    this.place = place;
    if (!place) {
      put(this.hair.node, 'd', 'M0 0');
      return;
    }
    const { x, y } = toScreen(this.stage.view, place);
    const low = this.stage.view.height - RULE_PX.across;
    put(this.hair.node, 'd', `M${x} ${low + TICK_PX}V${y}H${RULE_PX.left - TICK_PX}`);
  }

  private across(low: number): void {
    const { view } = this.stage;
    const from = toPart(view, { x: RULE_PX.left, y: 0 }).x;
    const to = toPart(view, { x: view.width, y: 0 }).x;
    let marks = `M${RULE_PX.left} ${low}H${view.width}`;
    for (const { mm, share, label } of ticksBetween(from, to, view.scale, this.bench.rule)) {
      const { x } = toScreen(view, { x: mm, y: 0 });
      marks += `M${x} ${low}v${TICK_PX * share}`;
      if (label !== undefined)
        this.rules
          .plain(label)
          .attr({ x, y: low + 32 })
          .addClass('middle');
    }
    this.rules.path().attr('d', marks).addClass('marks');
  }

  private upward(low: number): void {
    const { view } = this.stage;
    const from = toPart(view, { x: 0, y: low }).y;
    const to = toPart(view, { x: 0, y: 0 }).y;
    let marks = `M${RULE_PX.left} ${low}V0`;
    for (const { mm, share, label } of ticksBetween(from, to, view.scale, this.bench.rule)) {
      const { y } = toScreen(view, { x: 0, y: mm });
      marks += `M${RULE_PX.left} ${y}h${-TICK_PX * share}`;
      if (label === undefined || y <= 12 || y >= low - 6) continue;
      // A long figure stands over its mark, which leaves it no room beside it.
      const at =
        label.length > FIGURES
          ? { x: RULE_PX.left - 3, y: y - 4 }
          : { x: RULE_PX.left - TICK_PX - 3, y: y + 5 };
      this.rules.plain(label).attr(at).addClass('end');
    }
    this.rules.path().attr('d', marks).addClass('marks');
  }
}
