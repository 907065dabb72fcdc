import { basename, extname } from 'node:path';
import { Command } from 'commander';
import { FIT_MM } from '../curves/tolerance.ts';
import type { FullSizeOptions } from '../export/compose-full-size.ts';
import type { LayerName } from '../export/drawing.ts';
import { nameAfter } from '../export/file-name.ts';
import { suggest } from '../job/near-name.ts';
import type { Part } from '../part/part.ts';
import { Fault } from '../units/fault.ts';
import { showLength } from '../units/rule.ts';
import type { Drawn, Format } from './drawn.ts';
import { mustBeFree, writeWhole } from './files.ts';
import { type Given, readGiven, takesJob, warn } from './job-input.ts';
import { printJson } from './json.ts';
import { lengthAt } from './option.ts';
import { isOurDxf } from './our-dxf.ts';
import { isOurPdf } from './our-pdf.ts';
import { speakingOf } from './report.ts';
import { forceOption } from './shared-options.ts';
import { isOurSvg } from './svg-file.ts';
import { columns } from './table.ts';

interface DrawOptions {
  readonly output?: string;
  readonly only?: string;
  readonly parallel?: string;
  readonly mirror?: boolean;
  readonly splines?: boolean;
  readonly units?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** `fairlath draw JOB -o FILE`: the whole part at true size in one drawing. */
export const drawCommand = (): Command =>
  takesJob(new Command('draw'), {
    notes: [
      'A DXF is in mm, its x the station and its y the offset; --units in writes its numbers in inches. Its arcs lie ' +
        `within ${FIT_MM} mm of the exact curve. An SVG and a PDF carry their size themselves: open or print them at 100 %.`,
      'What a cutter takes off depends on the machine: let its own program set the tool to the outside of the line, ' +
        'or ask for a parallel.',
    ],
    files: 'Reads JOB. Writes the drawing.',
    care: 'Keep to the manual of the machine.',
    examples: [
      'fairlath draw samples/hall-bench-leg.yaml',
      'fairlath draw samples/hall-bench-leg.yaml -o leg.dxf --only cut,marks',
      'fairlath draw samples/garden-arch-rail.yaml -o rail.dxf --parallel 3mm --units in',
      'fairlath draw samples/wall-shelf-bracket.yaml -o bracket.pdf --mirror',
      'fairlath draw --curve batten --chord 28 --rise 3/4 --nail 12 -o curve.svg --only cut',
    ],
  })
    .summary('the whole part in one drawing, for a machine')
    .description('Draw the whole part full size, for a laser, a router, a plotter or a colleague.')
    .option(
      '-o, --output <FILE>',
      'a file ending in .svg, .dxf or .pdf (the job’s name.svg in the current folder)',
    )
    .option('--only <layers>', 'these layers only: cut, saw, parallel, joints, marks, text')
    .option(
      '--parallel <length>',
      'also a line at this distance from the finished one: positive outside, as the saw line; negative inside',
    )
    .option('--mirror', 'left and right changed over: the other part of a pair')
    .option(
      '--splines',
      'a DXF with its curves as splines (release 2000) instead of lines and arcs (release 12)',
    )
    .addOption(forceOption())
    .action(async (file: string | undefined, options: DrawOptions) => {
      const given = readGiven(file, { ...options, ...(file !== undefined && { units: undefined }) });
      const output = options.output ?? defaultOutput(given);
      const format = formatOf(output);
      mustSuit(format, options, file !== undefined);
      mustBeFree(output, given.file, IS_OURS[format], options.force ?? false);
      const { draw } = await import('./drawn.ts');
      const asked = optionsOf(given.part, options);
      const unit = options.units === 'in' ? 'in' : 'mm';
      const drawn = speakingOf({ ...given.speaker, places: new Map() }, () =>
        draw(given.part, asked, { format, unit, splines: options.splines ?? false }),
      );
      writeWhole(output, await drawn.content());
      warn(given.part);
      if (options.json) printJson('draw', given.part, { file: output, format, ...asJson(drawn) });
      else console.log(asText(given.part, drawn, output));
    });

const IS_OURS = { svg: isOurSvg, dxf: isOurDxf, pdf: isOurPdf } as const;

function formatOf(file: string): Format {
  const ending = extname(file).slice(1).toLowerCase();
  if (ending === 'svg' || ending === 'dxf' || ending === 'pdf') return ending;
  throw new Fault(
    'draw.format',
    `${file}: the ending says what to draw. Name a file ending in .svg, .dxf or .pdf.`,
  );
}

/** On a quick line --units is the unit of its lengths too. */
function mustSuit(format: Format, { splines, units }: DrawOptions, ofFile: boolean): void {
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

const defaultOutput = ({ file, part }: Given): string =>
  file === undefined ? nameAfter(part.name, '.svg') : `${basename(file, extname(file))}.svg`;

function optionsOf(part: Part, { only, parallel, mirror }: DrawOptions): FullSizeOptions {
  return {
    ...(only !== undefined && { only: layersNamed(only) }),
    ...(parallel !== undefined && { parallel: lengthAt('--parallel', parallel, part.rule.unit) }),
    ...(mirror !== undefined && { mirror }),
  };
}

function layersNamed(typed: string): LayerName[] {
  const names = typed.split(',').map((name) => name.trim());
  for (const name of names)
    if (!isLayer(name))
      throw new Fault('draw.layer', `--only: "${name}" is no layer. ${suggest(name, LAYER_NAMES)}`);
  return names.filter(isLayer);
}

/** In the order a maker thinks of them. */
const LAYER_NAMES: readonly LayerName[] = ['cut', 'saw', 'parallel', 'joints', 'marks', 'text'];
const isLayer = (name: string): name is LayerName => LAYER_NAMES.some((layer) => layer === name);

const asJson = ({ figures, layers, size, toFile }: Drawn): object => ({
  size,
  toFile,
  layers: layers.map(({ name, lines, arcs, curves }) => ({ name, lines, arcs, curves })),
  lines: figures.lines,
  arcs: figures.arcs,
  curves: figures.curves,
  worstError: figures.worst,
  tolerance: FIT_MM,
});

function asText(part: Part, { layers, figures, size }: Drawn, output: string): string {
  const { rule } = part;
  const rows = layers.map(({ name, lines, arcs, curves }) => [
    `  ${name}`,
    name === 'text'
      ? 'words'
      : [counted(lines, 'line'), counted(arcs, 'arc'), counted(curves, 'curve')].filter(Boolean).join(', '),
  ]);
  return [
    `${part.name}, full size, is in ${output}: ${showLength(size.width, rule)} by ${showLength(size.height, rule)} over all.`,
    columns(rows),
    `Nothing drawn lies more than ${Math.max(figures.worst, 0.0001).toFixed(4)} mm off the exact line.`,
  ].join('\n');
}

const counted = (count: number, what: string): string =>
  count === 0 ? '' : `${count} ${what}${count === 1 ? '' : 's'}`;
