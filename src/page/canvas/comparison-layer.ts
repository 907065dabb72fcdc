import {
  COMPARED_KINDS,
  type ComparedKind,
  type CurveComparison,
  liesApart,
} from '../../curves/compare/compare-kinds.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { pathData } from '../../export/writers/svg.ts';
import { readOnRule } from '../../units/rule.ts';
import { byId, el } from '../dom.ts';
import { MessageList } from '../panels/message-list.ts';
import type { Store } from '../state/store.ts';
import type { Highlight } from './highlight.ts';
import type { Viewport } from './viewport.ts';

type ComparedCurve = CurveComparison & { readonly edge: string };
type PlacedLabel = Point & { readonly half: number };

/** About the size of a letter and of a line of text, px. */
const [LETTER_PX, LINE_PX] = [7.5, 19];

export class ComparisonLayer {
  private compared: readonly ComparedCurve[] = [];
  private readonly boxes = new Map<ComparedKind, HTMLInputElement>();
  private readonly messageList;

  constructor(
    private readonly viewport: Viewport,
    private readonly store: Store,
    highlight: Highlight,
  ) {
    this.messageList = new MessageList(byId('beside-said'), highlight);
    const host = byId('beside-kinds');
    for (const kind of COMPARED_KINDS) {
      const box = el('input', { type: 'checkbox' });
      box.addEventListener('change', () => this.compare());
      host.append(el('label', { class: `choice ${kind}` }, box, kind));
      this.boxes.set(kind, box);
    }
    store.onChange(() => viewport.layer('beside').addClass('old'));
    store.onIdle(() => this.compare());
    viewport.onViewChange(() => this.draw());
  }

  private compare(): void {
    const { evaluated } = this.store;
    const isAsked = [...this.boxes.values()].some(({ checked }) => checked);
    const edges = (isAsked && evaluated?.part.edges) || [];
    this.compared = edges.flatMap(({ name, runs }) =>
      runs.flatMap((run) => liesApart(run).map((apart) => ({ ...apart, edge: name }))),
    );
    this.showMessages(isAsked);
    this.draw();
  }

  private draw(): void {
    const layer = this.viewport.layer('beside').clear().removeClass('old');
    const placed: PlacedLabel[] = [];
    for (const { kind, curve, worst, at } of this.visibleCurves()) {
      const line = layer.path().attr('d', pathData(curve.path)).addClass(kind);
      this.viewport.alignToPart(line);
      const { x, y } = this.viewport.toScreen(at);
      layer.circle(8).center(x, y);
      const isSame = readOnRule(worst, this.store.rule).mark === 0;
      const label = isSame ? `${kind}: the same` : `${kind} ${this.store.roundedText(worst)}`;
      const room = this.findLabelRoom(label, { x, y: y - 12 }, placed);
      placed.push(room);
      // Where the sheet is full the text is in the list only.
      if (room.y < LINE_PX) continue;
      layer.plain(label).attr({ x: room.x, y: room.y, 'text-anchor': 'middle' });
    }
  }

  private findLabelRoom(label: string, { x, y }: Point, placed: readonly PlacedLabel[]): PlacedLabel {
    const half = (label.length * LETTER_PX) / 2;
    const middle = this.viewport.labelMiddle(x, 2 * half);
    let line = y;
    const hit = (other: PlacedLabel): boolean =>
      Math.abs(other.x - middle) < other.half + half && Math.abs(other.y - line) < LINE_PX;
    for (let other = placed.find(hit); other; other = placed.find(hit)) line = other.y - LINE_PX;
    return { x: middle, y: line, half };
  }

  private visibleCurves(): ComparedCurve[] {
    return this.compared.filter(({ kind }) => this.boxes.get(kind)?.checked);
  }

  private showMessages(isAsked: boolean): void {
    const rows = this.visibleCurves().map((other) => ({ text: this.messageFor(other), target: () => other }));
    const none = 'No other kind of curve can make this bend, or the curve already is of that kind.';
    this.messageList.show(rows.length > 0 || !isAsked ? rows : [{ text: none }]);
  }

  private messageFor({ kind, worst, at, sameApex, edge }: ComparedCurve): string {
    const { roundedText, ruleText, rule } = this.store;
    const own = sameApex ? '' : ', its apex in the middle,';
    if (readOnRule(worst, rule).mark === 0)
      return `${edge}: the ${kind}${own} is the same curve on your rule`;
    return `${edge}: the ${kind}${own} is ${roundedText(worst)} off at station ${ruleText(at.x)}`;
  }
}
