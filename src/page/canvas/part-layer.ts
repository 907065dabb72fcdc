import { jointLines } from '../../export/drawing/part-view.ts';
import { drawCombs, pictureView } from '../../export/pictures/picture-view.ts';
import { pathData } from '../../export/writers/svg.ts';
import { cornersOnFace, edgeEnd, edgeStart } from '../../part/edge.ts';
import { isSquare } from '../../part/ends/end-planes.ts';
import type { Part } from '../../part/part.ts';
import { type LineRole, partLines } from '../../part/part-lines.ts';
import { itemAt } from '../../units/checked.ts';
import { updateAttribute } from '../dom.ts';
import type { Store } from '../state/store.ts';
import type { Viewport } from './viewport.ts';

/** Pixels per millimeter of a printed picture: the comb is as long as on paper, or half on a phone. */
const PICTURE_PX = { wide: 3, narrow: 1.6 } as const;
const TEETH_PER_PIECE = { wide: 48, narrow: 12 } as const;
const NARROW_PX = 600;

/** The part's finished line, saw line and chord, and its curvature comb. */
export class PartLayer {
  private readonly group;
  private readonly cut;
  private readonly joints;
  private readonly saw;
  private readonly chord;
  private readonly longPoints;
  private readonly comb;
  private isCombShown = false;

  constructor(
    private readonly viewport: Viewport,
    private readonly store: Store,
  ) {
    this.group = viewport.layer('lines').group();
    this.chord = this.group.path().addClass('chord');
    this.longPoints = this.group.path().addClass('beyond');
    this.saw = this.group.path().addClass('saw');
    this.cut = this.group.path().addClass('cut');
    this.joints = this.group.path().addClass('joint');
    this.comb = viewport.layer('comb').path();
    viewport.onViewChange(() => {
      this.viewport.alignToPart(this.group);
      this.drawComb();
    });
    store.onChange(() => this.draw());
  }

  showComb(isShown: boolean): void {
    this.isCombShown = isShown;
    this.drawComb();
  }

  draw(): void {
    const { evaluated, isUpToDate } = this.store;
    this.group.node.classList.toggle('faint', !isUpToDate);
    if (!evaluated) return;
    updateAttribute(this.cut.node, 'd', lineData(evaluated.part, 'finished'));
    updateAttribute(this.saw.node, 'd', lineData(evaluated.part, 'saw'));
    updateAttribute(this.joints.node, 'd', jointData(evaluated.part));
    updateAttribute(this.chord.node, 'd', lineData(evaluated.part, 'chord'));
    updateAttribute(this.longPoints.node, 'd', longPointData(evaluated.part));
    this.drawComb();
  }

  private drawComb(): void {
    const { evaluated } = this.store;
    updateAttribute(this.comb.node, 'd', evaluated && this.isCombShown ? this.combData(evaluated.part) : '');
  }

  private combData(part: Part): string {
    const { scale, origin, width } = this.viewport.view;
    const size = width < NARROW_PX ? 'narrow' : 'wide';
    const px = PICTURE_PX[size];
    const view = pictureView(part, scale / px, { x: origin.x / px, y: -origin.y / px });
    const at = ({ x, y }: { x: number; y: number }): string =>
      `${(x * px).toFixed(1)} ${(-y * px).toFixed(1)}`;
    return drawCombs(view)
      .map((comb) =>
        comb
          .filter(
            ({ tooth }) => tooth.piece.type !== 'line' && Number.isInteger(tooth.u * TEETH_PER_PIECE[size]),
          )
          .map(({ tooth, foot, tip }, i, all) => {
            const goesOn = all[i - 1]?.tooth.piece === tooth.piece;
            return `${goesOn ? `M${at(itemAt(all, i - 1).tip)}L${at(tip)}` : ''}M${at(foot)}L${at(tip)}`;
          })
          .join(''),
      )
      .join('');
  }
}

const jointData = (part: Part): string =>
  part.joints
    .flatMap((joint) => jointLines(part, joint))
    .map(({ path, closed }) => pathData(path, closed))
    .join('');

const lineData = (part: Part, role: LineRole): string =>
  partLines(part, [role])
    .map(({ path, closed }) => pathData(path, closed))
    .join('');

/** From where a leaning end cuts each edge to its long point, where the handles are. */
const longPointData = (part: Part): string =>
  part.ends?.every(isSquare)
    ? ''
    : part.edges
        .flatMap((edge) => {
          const [from, to] = cornersOnFace(part, edge);
          return [
            pathData([{ type: 'line', from, to: edgeStart(edge) }]),
            pathData([{ type: 'line', from: to, to: edgeEnd(edge) }]),
          ];
        })
        .join('');
