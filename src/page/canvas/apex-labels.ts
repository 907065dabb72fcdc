import type { Path, Text } from '@svgdotjs/svg.js';
import { lowerEdge } from '../../part/edge.ts';
import { offsetAt } from '../../part/offsets.ts';
import type { Part } from '../../part/part.ts';
import { type UnmarkedApex, unmarkedApexes } from '../../part/unmarked-apexes.ts';
import { updateAttribute, updateText } from '../dom.ts';
import type { Store } from '../state/store.ts';
import { RULE_PX, type Viewport } from './viewport.ts';

const TICK_PX = 12;
/** From the apex to the baseline of its label, above and below. */
const [ABOVE_PX, BELOW_PX] = [20, 34];
/** A line that slopes more than this at its apex, radians, would run through a centered label: 1 in 12. */
const MAX_CENTERED_SLOPE = 1 / 12;
/** From a sloping line's tick to its label, and the width of a letter, px. */
const [BESIDE_PX, LETTER_PX] = [8, 7.5];

/** Reused from frame to frame: moving them is faster than making them. */
type ApexLabel = { readonly tick: Path; readonly words: Text };

/** A tick and a reading at every apex without a handle: a nail off the middle is not the apex. */
export class ApexLabels {
  private readonly labels: ApexLabel[] = [];

  constructor(
    private readonly viewport: Viewport,
    private readonly store: Store,
  ) {
    viewport.onViewChange(() => this.draw());
    store.onChange(() => this.draw());
  }

  draw(): void {
    const { evaluated, isUpToDate } = this.store;
    this.viewport.layer('apexes').node.classList.toggle('faint', !isUpToDate);
    const bare = evaluated ? unmarkedApexes(evaluated.part, evaluated.figures, evaluated.handles) : [];
    for (const [i, apex] of bare.entries()) this.placeLabel(this.labelFor(i), apex, this.store.shown.part);
    for (const { tick, words } of this.labels.splice(bare.length)) {
      tick.remove();
      words.remove();
    }
  }

  private labelFor(i: number): ApexLabel {
    const layer = this.viewport.layer('apexes');
    this.labels[i] ??= { tick: layer.path(), words: layer.plain('') };
    return this.labels[i];
  }

  private placeLabel({ tick, words }: ApexLabel, apex: UnmarkedApex, part: Part): void {
    const { at, tilt, isRound } = apex;
    const { ruleText, lengthText } = this.store;
    const { x, y } = this.viewport.toScreen(at);
    const reads = `apex ${ruleText(at.x)}, ${lengthText(at.y)}`;
    const wide = reads.length * LETTER_PX;
    const anchor = this.anchorFor(x, isRound ? tilt : -tilt, wide);
    const left = { start: x, middle: this.viewport.labelMiddle(x, wide) - wide / 2, end: x - wide };
    // On the hollow side, clear of the curvature comb.
    const clear =
      anchor && isRound ? this.clearanceBelow(apex, part, [left[anchor], left[anchor] + wide]) : y;
    updateAttribute(tick.node, 'd', `M${x} ${y - TICK_PX}V${clear + TICK_PX}`);
    // Where the line would run through the label the tick is alone; the figures have the reading too.
    updateText(words.node, anchor ? reads : '');
    if (!anchor) return;
    updateAttribute(words.node, 'text-anchor', anchor);
    const places = { start: x + BESIDE_PX, middle: left.middle + wide / 2, end: x - BESIDE_PX };
    updateAttribute(words.node, 'x', String(places[anchor]));
    updateAttribute(words.node, 'y', String(isRound ? clear + BELOW_PX : y - ABOVE_PX));
  }

  /** How far down the sheet a label in the hollow under an apex must start, px. */
  private clearanceBelow({ at, edge }: UnmarkedApex, part: Part, words: readonly number[]): number {
    const down = (offset: number): number => this.viewport.toScreen({ x: 0, y: offset }).y;
    const y = down(at.y);
    if (part.edges.length > 1 && edge === lowerEdge(part)) {
      const ends = words.map((x) => offsetAt(edge, this.viewport.toPart({ x, y }).x) ?? at.y);
      return Math.max(y, ...ends.map(down));
    }
    const low = down(part.bounds.bottom);
    return low - y < BELOW_PX + ABOVE_PX ? Math.max(low, y) : y;
  }

  /** Beside the tick where the line and the sheet leave room: to its right under a line that rises. */
  private anchorFor(x: number, rising: number, words: number): 'start' | 'middle' | 'end' | undefined {
    const { width } = this.viewport.view;
    if (Math.abs(rising) <= MAX_CENTERED_SLOPE) return 'middle';
    if (rising > 0) return x + BESIDE_PX + words < width ? 'start' : undefined;
    return x - BESIDE_PX - words > RULE_PX.left ? 'end' : undefined;
  }
}
