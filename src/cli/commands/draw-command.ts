import { extname } from 'node:path';
import { FIT_MM } from '../../curves/geometry/tolerance.ts';
import type { LayerName } from '../../export/drawing/drawing.ts';
import type { FullSizeOptions } from '../../export/full-size/compose-full-size.ts';
import { didYouMean } from '../../job/parse/did-you-mean.ts';
import type { Part } from '../../part/part.ts';
import { Fault } from '../../units/fault.ts';
import { present } from '../../units/lists.ts';
import { showCount } from '../../units/number-format.ts';
import { showLength } from '../../units/rule.ts';
import { jobCommand } from '../define-command.ts';
import type { DrawnBoard, RenderedDrawing } from '../draw/render-drawing.ts';
import { writeFileAtomic } from '../files/atomic-write.ts';
import { requireOutput } from '../files/output-file.ts';
import { BOARD_OPTIONS } from '../options/board-options.ts';
import { defaultOutput, type QuickValues } from '../options/job-input.ts';
import { flagOf, group, nameOf, type OptionValues, optional, readLengths } from '../options/option-spec.ts';
import { forceOption, outputOption } from '../options/shared-options.ts';
import { pick, textTable } from '../output/print-answer.ts';
import { withFaultContext } from '../output/report-errors.ts';

const OPTIONS = [
  outputOption('a file ending in .svg, .dxf or .pdf (default: the job’s name.svg in the current folder)'),
  ...optional({
    '--only <layers>': 'these layers only: cut, saw, parallel, joints, marks, text, board (default: all)',
    '--parallel <length>':
      'also a line at this distance from the finished one: positive outside, as the saw line; negative inside',
    '--mirror': 'left and right changed over: the other part of a pair',
    '--splines': 'a DXF with its curves as splines (release 2000) instead of lines and arcs (release 12)',
  }),
  forceOption,
  group('All that are wanted, on a board:'),
  ...optional({
    '--nest': 'the copies on a board, in the closest layout found, its lower left corner at 0, 0',
    '--board <number>': 'which of the boards, where they take more than one (default: 1)',
  }),
  ...BOARD_OPTIONS,
  group('Options:'),
] as const;

/** --units is an option of every command that takes a job: here it is the unit of a DXF as well. */
type DrawOptions = OptionValues<typeof OPTIONS> & Pick<QuickValues, 'units'>;

export const makeCommand = jobCommand({
  name: 'draw',
  summary: 'the whole part in one drawing, for a machine',
  description:
    'Draw the whole part, or all that are wanted on their board, full size: for a laser, a router, a plotter or ' +
    'a colleague.',
  options: OPTIONS,
  ownUnits: true,
  notes: [
    'A DXF is in mm, its x the station and its y the offset; --units in writes its numbers in inches. Its arcs lie ' +
      `within ${FIT_MM} mm of the exact curve. An SVG and a PDF carry their size themselves: open or print them at 100%.`,
    'What a cutter takes off depends on the machine: let its own program set the tool to the outside of the line, ' +
      'or ask for a parallel.',
    '--nest lays out as many as the job wants, as close as fairlath stock does: give what the saw or the cutter ' +
      'takes as --kerf. Each part has its number; a mirrored one comes out as the other hand.',
  ],
  files: 'Reads JOB. Writes the drawing.',
  safety: ['machine-manual'],
  examples: [
    'fairlath draw samples/hall-bench-leg.yaml',
    'fairlath draw samples/hall-bench-leg.yaml -o leg.dxf --only cut,marks',
    'fairlath draw samples/garden-arch-rail.yaml -o rail.dxf --parallel 3mm --units in',
    'fairlath draw samples/wall-shelf-bracket.yaml -o bracket.pdf --mirror',
    'fairlath draw samples/wall-shelf-bracket.yaml -o board.dxf --nest --board-width 400 --board-length 900 --kerf 8',
    'fairlath draw --curve batten --chord 28 --rise 3/4 --nail 12 -o curve.svg --only cut',
  ],
  run: async (input, options) => {
    const { part, context, file } = input;
    const output = options.output ?? defaultOutput(input, '.svg');
    const format = formatFromExtension(output);
    validateFormatOptions(format, options, file !== undefined);
    validateNestOptions(options);
    requireOutput(output, { ending: `.${format}`, inputs: [file], force: options.force });
    const { composeDrawing, renderDrawing } = await import('../draw/render-drawing.ts');
    const fullSizeOptions = readFullSizeOptions(part, options);
    const { full, board } = withFaultContext(context, () => composeDrawing(part, options, fullSizeOptions));
    const { splines = false, units } = options;
    const unit = units === 'in' ? 'in' : 'mm';
    const drawn = withFaultContext(context, () => renderDrawing(part, full, { format, unit, splines }));
    writeFileAtomic(output, await drawn.content());
    return {
      part,
      json: () => ({ file: output, format, ...asJson(drawn, board) }),
      text: () => asText(part, drawn, output, board),
    };
  },
});

function validateNestOptions(options: DrawOptions): void {
  const { nest, mirror } = options;
  if (nest && mirror)
    throw new Fault(
      'draw.mirror-nest',
      '--mirror: on a board each part lies as the job asks, with "pair: mirrored" half of either hand. Leave it out.',
    );
  const names = ['board', ...BOARD_OPTIONS.map(nameOf)] as const;
  const stray = names.find((name) => options[name] !== undefined);
  if (stray && !nest)
    throw new Fault('draw.nest', `${flagOf(stray)} is for copies on a board. Add --nest, or leave it out.`);
}

const DRAWING_FORMATS = ['svg', 'dxf', 'pdf'] as const;
type DrawingFormat = (typeof DRAWING_FORMATS)[number];

function formatFromExtension(file: string): DrawingFormat {
  const found = DRAWING_FORMATS.find((format) => `.${format}` === extname(file).toLowerCase());
  if (found) return found;
  const wording = `${file}: the ending says what to draw. Name a file ending in .svg, .dxf or .pdf.`;
  throw new Fault('draw.format', wording);
}

/** Beside a quick line --units is also the unit of its lengths. */
function validateFormatOptions(format: DrawingFormat, options: DrawOptions, ofFile: boolean): void {
  const { splines, units } = options;
  if (format === 'dxf') {
    if (units !== undefined && units !== 'in' && units !== 'mm')
      throw new Fault('draw.units', `--units: "${units}" is unknown. Write mm or in.`);
    return;
  }
  if (splines)
    throw new Fault(
      'draw.splines',
      `--splines is for a DXF; an ${format.toUpperCase()} has its curves as such. Leave it out.`,
    );
  if (units !== undefined && ofFile)
    throw new Fault(
      'draw.units',
      `--units is for the numbers of a DXF; an ${format.toUpperCase()} is true in either. Leave it out.`,
    );
}

const readFullSizeOptions = ({ rule }: Part, options: DrawOptions): Omit<FullSizeOptions, 'mirror'> => ({
  ...(options.only !== undefined && { only: parseLayers(options.only) }),
  ...readLengths(options, ['parallel'], rule.unit, 'any'),
});

const parseLayers = (typed: string): LayerName[] =>
  typed.split(',').map((each) => {
    const name = each.trim();
    const found = LAYER_NAMES.find((layer) => layer === name);
    if (found) return found;
    throw new Fault('draw.layer', `--only: "${name}" is no layer. ${didYouMean(name, LAYER_NAMES)}`);
  });

const LAYER_NAMES: readonly LayerName[] = ['cut', 'saw', 'parallel', 'joints', 'marks', 'text', 'board'];

const asJson = ({ figures, layers, size, toFile }: RenderedDrawing, board?: DrawnBoard): object => ({
  size,
  toFile: toFile[0],
  board: board && { ...board, copies: toFile },
  layers: layers.map((layer) => pick(layer, 'name', 'lines', 'arcs', 'curves')),
  ...pick(figures, 'lines', 'arcs', 'curves'),
  worstError: figures.worst,
  tolerance: FIT_MM,
});

function asText(part: Part, { layers, figures, size }: RenderedDrawing, output: string, board?: DrawnBoard) {
  const { rule } = part;
  const rows = layers.map(({ name, lines, arcs, curves }) => {
    const counts = present(countText(lines, 'line'), countText(arcs, 'arc'), countText(curves, 'curve'));
    return [`  ${name}`, name === 'text' ? 'words' : counts.join(', ')];
  });
  return present(
    `${part.name}, full size, is in ${output}: ${showLength(size.width, rule)} by ${showLength(size.height, rule)} over all.`,
    textTable(rows),
    `Nothing drawn lies more than ${Math.max(figures.worst, 0.0001).toFixed(4)} mm off the exact line.`,
    quantityText(part, board),
  ).join('\n');
}

function quantityText({ quantity, rule, shape }: Part, board?: DrawnBoard): string | false {
  if (!board) {
    // One edge is a line on a board: there is nothing to lay on one.
    const where = shape.type === 'closed' ? ': --nest draws them on their board' : '';
    return quantity > 1 && `${quantity} are wanted${where}.`;
  }
  const { number, of, length, width, copies, gap } = board;
  const size = `${showLength(length, rule)} by ${showLength(width, rule)}`;
  const apart = copies > 1 ? `, never closer than ${showLength(gap, rule)}` : '';
  const next = number < of ? ` --board ${number + 1} draws the next.` : '';
  return `Board ${number} of ${of}, ${size}: ${copies} of the ${quantity} wanted${apart}.${next}`;
}

const countText = (count: number, what: string): string | false => count > 0 && showCount(count, what);
