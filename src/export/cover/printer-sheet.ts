import { point } from '../../curves/geometry/point.ts';
import { type Paper, paperTitle } from '../../tiling/paper/paper-sizes.ts';
import { MAX_SCALE_ERROR, NOMINAL_LINE_MM } from '../../tiling/paper/printer-scale.ts';
import { Fault, type ShowLength } from '../../units/fault.ts';
import { measuredLine, type Page, words } from '../drawing/drawing.ts';
import type { TextRow } from './text-columns.ts';
import { blankRow, fillPages, headingRow, numberedSteps, paragraph, paragraphs } from './text-columns.ts';

/** White beyond the end marks, mm: most printers reach that close, and A4 leaves no more beside 200 mm. */
const EDGE_MM = 5;
const ACROSS_MM = 26;
const DOWN_MM = 40;
const DOWN_ROOM_MM = 32;
/** Half an end mark, mm: long enough to lay a rule's edge against. */
const MARK_MM = 5;
const LABEL_MM = 4;
const RIGHT_WHITE_MM = 12.7;
/** Longer lines of words read badly, mm. */
const MAX_TEXT_MM = 150;

/** Two long lines to measure, drawn at their nominal length, uncorrected. @throws Fault `printer.no-room` */
export function printerSheet(paper: Paper, nominal: number, typed: string): Page[] {
  validateLinesFit(paper, nominal);
  const { width } = paper;
  const height = paper.roll ? DOWN_MM + nominal + 2 * MARK_MM + EDGE_MM : paper.height;
  const left = (width - nominal) / 2;
  const [across, down] = [height - ACROSS_MM, height - DOWN_MM];
  const x = Math.max(left, EDGE_MM) + 15;
  const label = (way: string): string => `${way}: ${typed} from end mark to end mark`;
  const lines = [
    ...measuredLine('rule', point(left, across), point(left + nominal, across), MARK_MM),
    ...measuredLine('rule', point(x, down), point(x, down - nominal), MARK_MM),
    words(label('across'), point(width / 2, across + 2.2), LABEL_MM, 'middle'),
    words(label('down'), point(x - 2.2, down - nominal / 2), LABEL_MM, 'middle', Math.PI / 2),
  ];
  const right = width - RIGHT_WHITE_MM;
  const box = { left: x + DOWN_ROOM_MM - 15, right, top: down, bottom: RIGHT_WHITE_MM };
  const rows = printerSheetRows(paper, nominal, typed, Math.min(box.right - box.left, MAX_TEXT_MM));
  return fillPages(rows, 'printer sheet', { width, height, items: lines }, [box]);
}

function validateLinesFit(paper: Paper, nominal: number): void {
  const room = Math.min(paper.width - 2 * EDGE_MM, paper.height - DOWN_MM - MARK_MM - EDGE_MM);
  const problem = (length: ShowLength): string =>
    `lines of ${length(nominal)} do not fit on ${paperTitle(paper)} both ways. Use ${Math.floor(room)} mm or less, or larger paper.`;
  if (nominal > room + 1e-9) throw new Fault('printer.no-room', problem, '--nominal');
}

const WAYS_ON_SHEET = 'Across means along the short side of the paper, down along its long side.';
const WAYS_ON_ROLL = 'Across means across the roll, down along the roll.';

function printerSheetRows(paper: Paper, nominal: number, typed: string, width: number): TextRow[] {
  const example = (share: number): string => `${Number((nominal * share).toFixed(1))} mm`;
  const lineLength = nominal === NOMINAL_LINE_MM ? '' : ` Say that the lines are ${typed} long.`;
  const ways = paper.roll ? WAYS_ON_ROLL : WAYS_ON_SHEET;
  return [
    headingRow('Printer sheet'),
    ...paragraph(
      `For ${paperTitle(paper)} paper. This sheet shows how long your printer makes ${typed}, across and down.`,
      width,
    ),
    blankRow(3),
    ...numberedSteps(
      [
        `Print this page on ${paperTitle(paper)} paper at 100% (“actual size”), with no fitting to the page. Use the program, paper tray and settings that you use for patterns.`,
        'Wait a few minutes. The paper is warm and dry when it comes out.',
        'Measure both lines with a steel rule, from the middle of one end mark to the middle of the other.',
        'Read to 0.2 mm or half of 1⁄64″. Start at a mark of the rule, because its end may be worn.',
        `In fairlath, save both lengths under a name for the printer, such as ${example(0.997)} across and ${example(1.003)} down.${lineLength}`,
        'Give that name when you make a pattern for this printer. On paper every 100 mm bar must then measure 100 mm.',
      ],
      width,
    ),
    blankRow(3),
    ...paragraphs(
      [
        `${ways} The correction is right for landscape sheets too, because the printer rotates them to fit the paper.`,
        `Is an end mark missing? The printer does not reach so near the edge. Make this sheet again with shorter lines, such as ${Math.floor((nominal * 0.9) / 10) * 10} mm.`,
        `Is a line off by more than ${MAX_SCALE_ERROR * 100}%? The page was scaled to another paper size. Check the print settings and print again.`,
      ],
      width,
    ),
  ];
}
