import type { Segment } from '../../curves/geometry/pieces/piece.ts';
import type { Point } from '../../curves/geometry/point.ts';
import { jointLines } from '../../export/drawing/part-view.ts';
import { drawCombs, pictureView } from '../../export/pictures/picture-view.ts';
import { pathData } from '../../export/writers/svg.ts';
import { cornersOnFace, edgeEnd, edgeStart } from '../../part/edge.ts';
import { isSquare } from '../../part/ends/end-planes.ts';
import type { Part } from '../../part/part.ts';
import { partLines } from '../../part/part-lines.ts';
import { updateAttribute } from '../dom.ts';
import type { Store } from '../state/store.ts';
import type { Viewport } from './viewport.ts';

/** Pixels per millimeter of a printed picture: the comb is as long as on paper, or half on a phone. */
const PICTURE_PX = { wide: 3, narrow: 1.6 } as const;
const TEETH_PER_PIECE = { wide: 48, narrow: 12 } as const;
const NARROW_PX = 600;

const pathsData = (lines: readonly { path: readonly Segment[]; closed?: boolean }[]): string =>
  lines.map(({ path, closed }) => pathData(path, closed)).join('');

/** From where a leaning end cuts each edge to its long point, where the handles are. */
function longPointData(part: Part): string {
  if (part.ends?.every(isSquare)) return '';
  const lines = part.edges.flatMap((edge) => {
    const [left, right] = cornersOnFace(part, edge);
    return [
      { from: left, to: edgeStart(edge) },
      { from: right, to: edgeEnd(edge) },
    ];
  });
  return pathsData(lines.map((line) => ({ path: [{ type: 'line', ...line }] })));
}

/** The paths of the part by their class, from the bottom up. */
const LINES: readonly (readonly [name: string, data: (part: Part) => string])[] = [
  ['chord', (part) => pathsData(partLines(part, ['chord']))],
  ['beyond', longPointData],
  ['saw', (part) => pathsData(partLines(part, ['saw']))],
  ['cut', (part) => pathsData(partLines(part, ['finished']))],
  ['joint', (part) => pathsData(part.joints.flatMap((joint) => jointLines(part, joint)))],
];

export class PartLayer {
  private readonly group;
  private readonly lines;
  private readonly comb;
  private isCombShown = false;

  constructor(
    private readonly viewport: Viewport,
    private readonly store: Store,
  ) {
    this.group = viewport.layer('lines').group();
    this.lines = LINES.map(([name, data]) => ({ path: this.group.path().addClass(name), data }));
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
    for (const { path, data } of this.lines) updateAttribute(path.node, 'd', data(evaluated.part));
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
    const at = ({ x, y }: Point): string => `${(x * px).toFixed(1)} ${(-y * px).toFixed(1)}`;
    const teeth = drawCombs(view).flatMap((comb) =>
      comb
        .filter(
          ({ tooth: { piece, u } }) => piece.type !== 'line' && Number.isInteger(u * TEETH_PER_PIECE[size]),
        )
        .map(({ tooth, foot, tip }, i, shown) => {
          const last = shown[i - 1];
          const goesOn = last?.tooth.piece === tooth.piece;
          return `${goesOn ? `M${at(last.tip)}L${at(tip)}` : ''}M${at(foot)}L${at(tip)}`;
        }),
    );
    return teeth.join('');
  }
}
