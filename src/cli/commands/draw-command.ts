import { extname } from 'node:path';
import { FIT_MM } from '../../curves/geometry/tolerance.ts';
import type { LayerName } from '../../export/drawing/drawing.ts';
import type { FullSizeOptions } from '../../export/full-size/compose-full-size.ts';
import { didYouMean } from '../../job/parse/did-you-mean.ts';
import type { Part } from '../../part/part.ts';
import { Fault } from '../../units/fault.ts';
import { showSizes } from '../../units/graduation.ts';
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
  outputOption('file to write, ending in .svg, .dxf or .pdf (default: the name of the job with .svg)'),
  ...optional({
    '--only <layers>': 'layers to draw: cut, saw, parallel, joints, marks, text, board (default: all)',
    '--parallel <length>':
      'distance of an extra line from the finished line: positive outside, negative inside',
    '--mirror': 'mirror the part left to right, for the mirrored part of a pair',
    '--splines': 'write the curves of a DXF as splines (release 2000), not as lines and arcs (release 12)',
  }),
  forceOption,
  group('All copies, on a board:'),
  ...optional({
    '--nest': 'lay out all copies on a board, as close as they fit; its lower left corner is 0, 0',
    '--board <number>': 'number of the board to draw, if there are several (default: 1)',
  }),
  ...BOARD_OPTIONS,
  group('Options:'),
] as const;

/** --units belongs to every command that takes a job. Here it is also the unit of a DXF. */
type DrawOptions = OptionValues<typeof OPTIONS> & Pick<QuickValues, 'units'>;

export const makeCommand = jobCommand({
  name: 'draw',
  summary: 'the whole part in one drawing, for a machine',
  description:
    'Draw the whole part full size in one file, or all copies on a board. Use the file for a laser cutter, a router or ' +
    'a plotter.',
  options: OPTIONS,
  ownUnits: true,
  notes: [
    'A DXF is in mm: x is the station, y is the offset. With --units in, its numbers are inches. Its arcs are within ' +
      `${FIT_MM} mm of the exact curve. An SVG and a PDF carry their size: open or print them at 100%.`,
    'The drawing makes no allowance for the width of the cutter. Set the tool path in the software of the machine, ' +
      'or draw one parallel line alone: --parallel 1/8 --only parallel.',
    '--nest lays out the whole quantity, as close as "fairlath stock" does. Give the width of the saw or router cut as ' +
      '--kerf. Each part has a number. A mirrored part is drawn mirrored.',
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
      '--mirror: on a board, the job says which parts are mirrored. Leave out --mirror, or write "pair: mirrored" in the job.',
    );
  const names = ['board', ...BOARD_OPTIONS.map(nameOf)] as const;
  const stray = names.find((name) => options[name] !== undefined);
  if (stray && !nest)
    throw new Fault(
      'draw.nest',
      `${flagOf(stray)} is for copies on a board. Add --nest, or leave out ${flagOf(stray)}.`,
    );
}

const DRAWING_FORMATS = ['svg', 'dxf', 'pdf'] as const;
type DrawingFormat = (typeof DRAWING_FORMATS)[number];

function formatFromExtension(file: string): DrawingFormat {
  const found = DRAWING_FORMATS.find((format) => `.${format}` === extname(file).toLowerCase());
  if (found) return found;
  const wording = `${file}: the name does not end in .svg, .dxf or .pdf. Give such a name, for example leg.svg.`;
  throw new Fault('draw.format', wording);
}

/** With a quick line, --units is also the unit of its lengths. */
function validateFormatOptions(format: DrawingFormat, options: DrawOptions, ofFile: boolean): void {
  const { splines, units } = options;
  if (format === 'dxf') {
    if (units !== undefined && units !== 'in' && units !== 'mm')
      throw new Fault('draw.units', `--units: "${units}" is not a unit for a DXF. Use mm or in.`);
    return;
  }
  if (splines)
    throw new Fault(
      'draw.splines',
      `--splines changes only a DXF. Leave it out, or give a name that ends in .dxf.`,
    );
  if (units !== undefined && ofFile)
    throw new Fault(
      'draw.units',
      `--units changes only a DXF. Leave it out, or give a name that ends in .dxf.`,
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
    throw new Fault('draw.layer', `--only: "${name}" is not a layer. ${didYouMean(name, LAYER_NAMES)}`);
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
    `Wrote ${output}: ${part.name}, full size, ${showSizes([size.width, size.height], rule)} overall.`,
    textTable(rows),
    `The drawing is within ${Math.max(figures.worst, 0.0001).toFixed(4)} mm of the exact curve everywhere.`,
    quantityText(part, board),
  ).join('\n');
}

function quantityText({ quantity, rule, shape }: Part, board?: DrawnBoard): string | false {
  if (!board) {
    // A part with one edge has no outline to lay on a board.
    const nest = shape.type === 'closed' ? ' Use --nest to lay out all copies on a board.' : '';
    return quantity > 1 && `Quantity: ${quantity}.${nest}`;
  }
  const { number, of, length, width, copies, gap } = board;
  const size = showSizes([length, width], rule);
  const apart = copies > 1 ? `, at least ${showLength(gap, rule)} apart` : '';
  const next = number < of ? ` Use --board ${number + 1} to draw the next board.` : '';
  return `Board ${number} of ${of}, ${size}: ${copies} of ${showCount(quantity, 'part')}${apart}.${next}`;
}

const countText = (count: number, what: string): string | false => count > 0 && showCount(count, what);
