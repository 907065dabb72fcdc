import { apply, inverse } from '../../curves/geometry/affine.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { needsMirrorImage } from '../../export/cover/pair-words.ts';
import type { Part } from '../../part/part.ts';
import type { Layout, Sheet } from '../../tiling/layout.ts';
import { layOutMirrored } from '../../tiling/mirrored-layout.ts';
import { PAPERS, paperTitle, parsePaper, USUAL_PAPER } from '../../tiling/paper/paper-sizes.ts';
import { DEFAULT_MARGIN_MM, DEFAULT_OVERLAP_MM, type LayOutOptions, layOut } from '../../tiling/tile.ts';
import { byId, el, write } from '../dom.ts';
import type { Layouts } from '../panels/downloads.ts';
import { faultsIn } from '../state/evaluate-job.ts';
import type { Bench } from '../state/store.ts';
import { toScreen } from './view-transform.ts';
import type { Stage } from './viewport.ts';

/** How the pattern lies over its sheets, worked out when the hand rests, and drawn over the part on demand. */
export class Sheets {
  /** The last layout; its count is shown grey while the part is another by now. */
  layout: Layout | undefined;
  private isFresh = false;
  private readonly paper = byId<HTMLSelectElement>('paper');
  private readonly turn = byId<HTMLSelectElement>('turn');
  private readonly shown = byId<HTMLInputElement>('show-sheets');
  /** No paper is asked for: the one that goes with the job's unit. */
  private readonly usual = el('option', { value: '' });
  private readonly said = byId('sheets-said');
  /** Why the part cannot be laid over sheets. */
  fault = '';

  constructor(
    private readonly stage: Stage,
    private readonly bench: Bench,
    private readonly known: () => void,
  ) {
    this.paper.append(
      this.usual,
      ...PAPERS.map((paper) => el('option', { value: paper.name }, paperTitle(paper))),
    );
    for (const node of [this.paper, this.turn]) node.addEventListener('change', () => this.layOut());
    this.shown.addEventListener('change', () => this.draw());
    stage.moved(() => this.draw());
    bench.changed(() => this.outdated());
    bench.rests(() => this.layOut());
  }

  /** "4 sheets of letter"; nothing before the hand has rested once. */
  get count(): string {
    const { layout } = this;
    if (!layout) return this.fault && 'none: see “Take to the bench”';
    const { length } = layout.sheets;
    return `${length} ${length === 1 ? 'sheet' : 'sheets'} of ${paperTitle(layout.paper)}`;
  }

  get isTrue(): boolean {
    return this.isFresh;
  }

  /** Another part lies on the bench. */
  forget(): void {
    this.layout = undefined;
    this.fault = '';
  }

  layOut(): void {
    const { made, isTrue } = this.bench;
    if (!made || !isTrue) return;
    const { part } = made;
    write(this.usual, `${paperTitle(parsePaper(USUAL_PAPER[part.rule.unit]))}, as usual`);
    ({ layout: this.layout, fault: this.fault } = this.laid(part));
    this.isFresh = true;
    this.draw();
    this.known();
  }

  /** The part over its sheets and, where the other of a pair has a pattern of its own, that one over its own. */
  layouts(part: Part): Layouts {
    const { layout, fault } = this.laid(part);
    const isPair = layout !== undefined && needsMirrorImage(part);
    return { layout, mirrored: isPair ? layOutMirrored(part, this.howFor(part)) : undefined, fault };
  }

  private laid(part: Part): Pick<Layouts, 'layout' | 'fault'> {
    try {
      return { layout: layOut(part, this.howFor(part)), fault: '' };
    } catch (error) {
      const why = faultsIn(error).map((fault) => fault.messageIn(this.bench.length));
      return { layout: undefined, fault: why.join(' ') };
    }
  }

  private howFor({ rule }: Part): LayOutOptions {
    return {
      paper: parsePaper(this.paper.value || USUAL_PAPER[rule.unit]),
      margin: DEFAULT_MARGIN_MM,
      overlap: DEFAULT_OVERLAP_MM,
      turn: this.turn.value === 'auto' ? 'auto' : Number(this.turn.value),
    };
  }

  private outdated(): void {
    if (!this.isFresh) return;
    this.isFresh = false;
    this.said.classList.add('old');
  }

  private draw(): void {
    write(this.said, this.fault || (this.layout ? this.words(this.layout) : ''));
    this.said.classList.toggle('old', !this.isFresh);
    const layer = this.stage.layer('sheets').clear();
    if (!this.layout || !this.shown.checked) return;
    for (const sheet of this.layout.sheets) {
      const corners = cornersOf(sheet).map((corner) => toScreen(this.stage.view, corner));
      layer.path().attr('d', `M${corners.map(({ x, y }) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`);
      const [a, , c] = corners as [Point, Point, Point, Point];
      layer.plain(sheet.name).attr({ x: (a.x + c.x) / 2, y: (a.y + c.y) / 2 + 6, class: 'middle' });
    }
  }

  private words({ orientation, turnDeg, plainSheets, sheets }: Layout): string {
    const lies = orientation === 'upright' ? 'upright' : 'lying on the side';
    const turned = turnDeg === 0 ? 'the part as it lies' : `the part turned ${turnDeg}°`;
    const saved = plainSheets > sheets.length ? `, instead of ${plainSheets}` : '';
    return `${this.count}${saved}: the paper ${lies}, ${turned}`;
  }
}

/** The corners of a sheet's own share, on the part. */
function cornersOf({ cell: { left, right, bottom, top }, toSheet }: Sheet): Point[] {
  const toPart = inverse(toSheet);
  return [
    { x: left, y: bottom },
    { x: right, y: bottom },
    { x: right, y: top },
    { x: left, y: top },
  ].map((corner) => apply(toPart, corner));
}
