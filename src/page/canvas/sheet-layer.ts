import { invert, transformPoint } from '../../curves/geometry/affine.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { needsMirrorImage } from '../../export/cover/pair-words.ts';
import { boxCorners } from '../../export/drawing/drawing.ts';
import { centreOf } from '../../export/labels/free-space.ts';
import type { Part } from '../../part/part.ts';
import type { Layout } from '../../tiling/layout.ts';
import { layOutMirrored } from '../../tiling/mirrored-layout.ts';
import {
  DEFAULT_PAPER,
  ORIENTATION_TEXT,
  PAPERS,
  paperTitle,
  parsePaper,
} from '../../tiling/paper/paper-sizes.ts';
import { DEFAULT_MARGIN_MM, DEFAULT_OVERLAP_MM, type LayOutOptions, layOut } from '../../tiling/tile.ts';
import { showCount } from '../../units/number-format.ts';
import { byId, el, updateText } from '../dom.ts';
import type { PatternLayouts } from '../panels/downloads.ts';
import { userFaults } from '../state/evaluate-job.ts';
import type { Store } from '../state/store.ts';
import type { Viewport } from './viewport.ts';

export class SheetLayer {
  layout: Layout | undefined;
  isUpToDate = false;
  private readonly paper = byId<HTMLSelectElement>('paper');
  private readonly turn = byId<HTMLSelectElement>('turn');
  private readonly showBox = byId<HTMLInputElement>('show-sheets');
  private readonly defaultPaper = el('option', { value: '' });
  private readonly status = byId('sheets-said');
  fault = '';

  constructor(
    private readonly viewport: Viewport,
    private readonly store: Store,
    private readonly onLaidOut: () => void,
  ) {
    const papers = PAPERS.map((paper) => el('option', { value: paper.name }, paperTitle(paper)));
    this.paper.append(this.defaultPaper, ...papers);
    for (const node of [this.paper, this.turn]) node.addEventListener('change', () => this.layOut());
    this.showBox.addEventListener('change', () => this.draw());
    viewport.onViewChange(() => this.draw());
    store.onChange(() => {
      this.isUpToDate = false;
      this.status.classList.add('old');
    });
    store.onIdle(() => this.layOut());
  }

  get countText(): string {
    const { layout } = this;
    if (!layout) return this.fault && 'none. See “Take to the bench”';
    return `${showCount(layout.sheets.length, 'sheet')} of ${paperTitle(layout.paper)}`;
  }

  clear(): void {
    this.layout = undefined;
    this.fault = '';
  }

  layOut(): void {
    const { evaluated, isUpToDate } = this.store;
    if (!evaluated || !isUpToDate) return;
    const { part } = evaluated;
    updateText(this.defaultPaper, `${paperTitle(parsePaper(DEFAULT_PAPER[part.rule.unit]))} (default)`);
    ({ layout: this.layout, fault: this.fault } = this.tryLayOut(part));
    this.isUpToDate = true;
    this.draw();
    this.onLaidOut();
  }

  layouts(part: Part): PatternLayouts {
    const { layout, fault } = this.tryLayOut(part);
    if (!layout) throw new Error(fault);
    return {
      layout,
      mirrored: needsMirrorImage(part) ? layOutMirrored(part, this.layOutOptions(part)) : undefined,
    };
  }

  private tryLayOut(part: Part): { layout: Layout | undefined; fault: string } {
    try {
      return { layout: layOut(part, this.layOutOptions(part)), fault: '' };
    } catch (error) {
      const why = userFaults(error).map((fault) => fault.messageIn(this.store.lengthText));
      return { layout: undefined, fault: why.join(' ') };
    }
  }

  private layOutOptions({ rule }: Part): LayOutOptions {
    return {
      paper: parsePaper(this.paper.value || DEFAULT_PAPER[rule.unit]),
      margin: DEFAULT_MARGIN_MM,
      overlap: DEFAULT_OVERLAP_MM,
      turn: this.turn.value === 'auto' ? 'auto' : Number(this.turn.value),
    };
  }

  private draw(): void {
    updateText(this.status, this.fault || (this.layout ? this.statusText(this.layout) : ''));
    this.status.classList.toggle('old', !this.isUpToDate);
    const layer = this.viewport.layer('sheets').clear();
    if (!this.layout || !this.showBox.checked) return;
    for (const sheet of this.layout.sheets) {
      const toPart = invert(sheet.toSheet);
      const at = (place: Point): Point => this.viewport.toScreen(transformPoint(toPart, place));
      const corners = boxCorners(sheet.cell).map(at);
      layer.path().attr('d', `M${corners.map(({ x, y }) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`);
      const { x, y } = at(centreOf(sheet.cell));
      layer.plain(sheet.name).attr({ x, y: y + 6, 'text-anchor': 'middle' });
    }
  }

  private statusText({ orientation, turnDeg, plainSheets, sheets }: Layout): string {
    const turned = turnDeg === 0 ? 'no rotation' : `the part rotated ${turnDeg}°`;
    const saved = plainSheets > sheets.length ? ` instead of ${plainSheets}` : '';
    return `${this.countText}${saved}, ${ORIENTATION_TEXT[orientation]}, ${turned}`;
  }
}
