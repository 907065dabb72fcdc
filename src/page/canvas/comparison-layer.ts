import { type Apart, COMPARED, type ComparedKind, liesApart } from '../../curves/compare/compare-kinds.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { pathData } from '../../export/writers/svg.ts';
import { readOnRule } from '../../units/rule.ts';
import { byId, el } from '../dom.ts';
import { LineList } from '../panels/message-list.ts';
import type { Bench } from '../state/store.ts';
import type { Places } from './highlight.ts';
import { toScreen } from './view-transform.ts';
import type { Stage } from './viewport.ts';

interface Other extends Apart {
  readonly edge: string;
}

/** Words on the sheet: their middle, and half of what they take, px. */
interface Written extends Point {
  readonly half: number;
}

/** A letter of the drawing, about, and a line of them, px. */
const [LETTER_PX, LINE_PX] = [7.5, 19];

/** Other kinds of curve laid over the part's own, with what they are off at worst; once the hand rests. */
export class Beside {
  private others: readonly Other[] = [];
  private readonly boxes = new Map<ComparedKind, HTMLInputElement>();
  private readonly said;

  constructor(
    private readonly stage: Stage,
    private readonly bench: Bench,
    places: Places,
  ) {
    this.said = new LineList(byId('beside-said'), places);
    const host = byId('beside-kinds');
    for (const kind of COMPARED) {
      const box = el('input', { type: 'checkbox' });
      box.addEventListener('change', () => this.compare());
      host.append(el('label', { class: `choice ${kind}` }, box, kind));
      this.boxes.set(kind, box);
    }
    bench.changed(() => stage.layer('beside').addClass('old'));
    bench.rests(() => this.compare());
    stage.moved(() => this.draw());
  }

  private compare(): void {
    const { made } = this.bench;
    const isAsked = [...this.boxes.values()].some(({ checked }) => checked);
    this.others =
      made && isAsked
        ? made.part.edges.flatMap(({ name, runs }) =>
            runs.flatMap((run) => liesApart(run).map((apart) => ({ ...apart, edge: name }))),
          )
        : [];
    this.say(isAsked);
    this.draw();
  }

  private draw(): void {
    const layer = this.stage.layer('beside').clear().removeClass('old');
    const written: Written[] = [];
    for (const { kind, curve, worst, at } of this.chosen()) {
      const line = layer.path().attr('d', pathData(curve.path)).addClass(kind);
      this.stage.place(line);
      const { x, y } = toScreen(this.stage.view, at);
      layer.circle(8).center(x, y);
      const isSame = readOnRule(worst, this.bench.rule).mark === 0;
      const words = isSame ? `${kind}: the same` : `${kind} ${this.bench.about(worst)}`;
      const room = this.roomFor(words, { x, y: y - 12 }, written);
      written.push(room);
      // Where the sheet is full they stand in the list alone.
      if (room.y < LINE_PX) continue;
      layer.plain(words).attr({ x: room.x, y: room.y, class: 'middle' });
    }
  }

  /** Over a place, inside the sheet, and over what is written there already. */
  private roomFor(words: string, { x, y }: Point, written: readonly Written[]): Written {
    const half = (words.length * LETTER_PX) / 2;
    const middle = this.stage.middleFor(x, 2 * half);
    let line = y;
    const hit = (other: Written): boolean =>
      Math.abs(other.x - middle) < other.half + half && Math.abs(other.y - line) < LINE_PX;
    for (let other = written.find(hit); other; other = written.find(hit)) line = other.y - LINE_PX;
    return { x: middle, y: line, half };
  }

  private chosen(): Other[] {
    return this.others.filter(({ kind }) => this.boxes.get(kind)?.checked);
  }

  private say(isAsked: boolean): void {
    const rows = this.chosen().map((other) => ({ words: this.words(other), spot: () => other }));
    const none = 'None of these exists for this bend, or the line is one of them.';
    this.said.show(rows.length > 0 || !isAsked ? rows : [{ words: none }]);
  }

  private words({ kind, worst, at, sameApex, edge }: Other): string {
    const { about, bare, rule } = this.bench;
    const own = sameApex ? '' : ', its apex in the middle,';
    if (readOnRule(worst, rule).mark === 0) return `${edge}: the ${kind}${own} is the same line on your rule`;
    return `${edge}: the ${kind}${own} lies ${about(worst)} off at station ${bare(at.x)}`;
  }
}
