import { drawnCombs, pictureView } from '../../export/pictures/picture-view.ts';
import { jointLines } from '../../export/sheets/joint-marks.ts';
import { pathData } from '../../export/writers/svg.ts';
import { edgeEnd, edgeStart } from '../../part/edge.ts';
import { cornersOnFace } from '../../part/edge-corners.ts';
import { isSquare } from '../../part/ends/end-planes.ts';
import { finishedLine } from '../../part/finished-line.ts';
import type { Part } from '../../part/part.ts';
import { put } from '../dom.ts';
import type { Bench } from '../state/store.ts';
import type { Stage } from './viewport.ts';

/** Pixels for a millimetre of a printed picture: the comb's teeth are as long as on paper, or half on a phone. */
const PICTURE_PX = { wide: 3, narrow: 1.6 } as const;
/** Teeth drawn on one piece, its two ends among them. */
const TEETH = { wide: 48, narrow: 12 } as const;
const NARROW_PX = 600;

/** The part's lines: finished, to saw to, chord; and on demand its curvature as a comb. */
export class Drawing {
  private readonly world;
  private readonly cut;
  private readonly joints;
  private readonly saw;
  private readonly chord;
  private readonly beyond;
  private readonly comb;
  private isCombShown = false;

  constructor(
    private readonly stage: Stage,
    private readonly bench: Bench,
  ) {
    this.world = stage.layer('lines').group();
    this.chord = this.world.path().addClass('chord');
    this.beyond = this.world.path().addClass('beyond');
    this.saw = this.world.path().addClass('saw');
    this.cut = this.world.path().addClass('cut');
    this.joints = this.world.path().addClass('joint');
    this.comb = stage.layer('comb').path();
    stage.moved(() => {
      this.stage.place(this.world);
      this.drawComb();
    });
    bench.changed(() => this.draw());
  }

  showComb(isShown: boolean): void {
    this.isCombShown = isShown;
    this.drawComb();
  }

  draw(): void {
    const { made, isTrue } = this.bench;
    this.world.node.classList.toggle('faint', !isTrue);
    if (!made) return;
    const { shape, saw } = made.part;
    const closed = shape.type === 'closed';
    put(this.cut.node, 'd', pathData(finishedLine(shape), closed));
    put(this.saw.node, 'd', pathData(saw, closed));
    put(this.joints.node, 'd', jointData(made.part));
    put(this.chord.node, 'd', chordData(made.part));
    put(this.beyond.node, 'd', beyondData(made.part));
    this.drawComb();
  }

  private drawComb(): void {
    const { made } = this.bench;
    put(this.comb.node, 'd', made && this.isCombShown ? this.combData(made.part) : '');
  }

  private combData(part: Part): string {
    const { scale, origin, width } = this.stage.view;
    const size = width < NARROW_PX ? 'narrow' : 'wide';
    const px = PICTURE_PX[size];
    const view = pictureView(part, scale / px, { x: origin.x / px, y: -origin.y / px });
    const at = ({ x, y }: { x: number; y: number }): string =>
      `${(x * px).toFixed(1)} ${(-y * px).toFixed(1)}`;
    return drawnCombs(view)
      .map((comb) =>
        comb
          .filter(({ tooth }) => tooth.piece.type !== 'line' && Number.isInteger(tooth.u * TEETH[size]))
          .map(({ tooth, foot, tip }, i, all) => {
            const goesOn = all[i - 1]?.tooth.piece === tooth.piece;
            return `${goesOn ? `M${at(all[i - 1]!.tip)}L${at(tip)}` : ''}M${at(foot)}L${at(tip)}`;
          })
          .join(''),
      )
      .join('');
  }
}

/** What is laid out on the face, as on the pattern. */
const jointData = (part: Part): string =>
  part.joints
    .flatMap((joint) => jointLines(part, joint))
    .map(({ path, closed }) => pathData(path, closed))
    .join('');

const chordData = ({ shape }: Part): string =>
  shape.type === 'line' ? pathData([{ type: 'line', from: shape.chord[0], to: shape.chord[1] }]) : '';

/** From where leaning ends cut each edge off to where it is set out, its long point: there stand its grips. */
const beyondData = (part: Part): string =>
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
