import { point } from '../../curves/geometry/point.ts';
import { type Paper, paperTitle } from '../../tiling/paper/paper-sizes.ts';
import { MAX_SCALE_ERROR, NOMINAL_LINE_MM, shellArgument } from '../../tiling/paper/printer-scale.ts';
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
    `lines of ${length(nominal)} do not fit on ${paperTitle(paper)} both ways. Use --nominal ${Math.floor(room)}mm or less, or larger paper.`;
  if (nominal > room + 1e-9) throw new Fault('printer.no-room', problem);
}

function printerSheetRows(paper: Paper, nominal: number, typed: string, width: number): TextRow[] {
  const isUsual = nominal === NOMINAL_LINE_MM;
  const off = isUsual ? '' : ` --nominal ${shellArgument(typed)}`;
  const example = (share: number): string => `${Number((nominal * share).toFixed(1))}mm`;
  return [
    headingRow('Printer sheet'),
    ...paragraph(
      `For ${paperTitle(paper)}. It shows how long your printer makes ${typed}, both ways.`,
      width,
    ),
    blankRow(3),
    ...numberedSteps(
      [
        `Print this page at 100% (“actual size”), with no fitting to the page, on ${paperTitle(paper)} paper: from the program, the tray and the settings that you print patterns with.`,
        'Let the paper lie for some minutes: it comes out warm and dry.',
        'Measure both lines with a steel rule, from the middle of one end mark to the middle of the other, to 0.2 mm or half of 1⁄64″. Start at a mark of the rule rather than at its worn end.',
        `Type what you measured, under a name of your own for the printer: fairlath printer set NAME --across ${example(0.997)} --down ${example(1.003)}${off}`,
        'Print your patterns with: fairlath print JOB.yaml --printer NAME. A true rule must then read 100 mm on every 100 mm bar.',
      ],
      width,
    ),
    blankRow(3),
    ...paragraphs(
      [
        'Across is along the short side of the paper, down along its long side (on a roll: across the roll and along it). A pattern that lies on its side is turned by the printer to fit the paper; the correction stays with the paper and is right for it too.',
        `An end mark is missing? The printer does not reach that far: make the sheet again with shorter lines, such as --nominal ${Math.floor((nominal * 0.9) / 10) * 10}mm.`,
        `A line is off by more than ${MAX_SCALE_ERROR * 100}%? The page was fitted to other paper: look at the settings and print again.`,
      ],
      width,
    ),
  ];
}
