import { Command } from 'commander';
import type { Part } from '../../part/part.ts';
import { adviseStrips, type RunsAdvice, stripToCut } from '../../shop/strip/part-strips.ts';
import { chooseStripSpecies } from '../../shop/wood/find-species.ts';
import { describeNails, describeStrip, partStripCautions } from '../../shop/words/describe-strip.ts';
import { Fault, type Warning } from '../../units/fault.ts';
import { showLength } from '../../units/rule.ts';
import { writePicture } from '../files/picture-file.ts';
import { addJobArgument, printWarnings, readJobInput } from '../options/job-input.ts';
import { atOption, parseLengthOption } from '../options/option-values.ts';
import { forceOption, pictureOption, speciesOption } from '../options/shared-options.ts';
import { pointJson, printJson } from '../output/json-output.ts';
import { optionContext, withFaultContext } from '../output/report-errors.ts';
import { writeLine } from '../output/stdout.ts';

interface BattenOptions {
  readonly species?: string;
  readonly thickness?: string;
  readonly width?: string;
  readonly picture?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** `fairlath batten JOB`: which strip does the curve, and how to hold it. */
export const makeCommand = (): Command =>
  addJobArgument(
    new Command('batten')
      .summary('which strip takes the curve, and where to nail it')
      .description(
        'Say which strip takes the curve: thickness and length, its strain beside what is safe and what breaks it, ' +
          'where the middle of each nail goes, and the force each nail bears.',
      )
      .addOption(speciesOption('the strip'))
      .option(
        '--thickness <length>',
        'of the strip where it starts (default: the thickest that is safe and that its nails bear, 1/2 in or 12 mm at most)',
      )
      .option('--width <length>', 'of the strip as it stands on edge (default: 3/4 in or 20 mm)')
      .addOption(pictureOption('also draw the strip over its nails, to scale'))
      .addOption(forceOption()),
    {
      notes: [
        'The figures are averages of clear, straight-grained wood (USDA Wood Handbook). Half of the breaking strain ' +
          'counts as safe; your strip may be weaker.',
      ],
      files: 'Reads JOB. Writes the SVG that --picture names.',
      care: 'A sprung strip flies when it is let go. Wear eye protection, and hold it down while you draw the nails.',
      examples: [
        'fairlath batten samples/hall-bench-leg.yaml',
        'fairlath batten samples/hall-bench-leg.yaml --picture strip.svg',
        'fairlath batten samples/garden-arch-rail.yaml --species "Sitka spruce" --thickness 8',
        'fairlath batten --curve batten --chord 28 --rise 3/4 --nail 12 --species ash',
      ],
    },
  ).action(async (file: string | undefined, options: BattenOptions) => {
    const { part, context, file: job } = readJobInput(file, { ...options });
    const runs = withFaultContext(optionContext(context), () => adviseFromOptions(part, options));
    const { picture: output, force } = options;
    if (output !== undefined)
      await writePicture({ output, inputs: [job], force }, `${part.name}: the strip`, async () => {
        const { composeStripPicture } = await import('../../export/pictures/strip-picture.ts');
        try {
          return composeStripPicture(part, runs);
        } catch (error) {
          if (!(error instanceof Fault) || error.code !== 'strip.no-nails') throw error;
          throw new Fault(error.code, `${error.message} ${SHOW_PICTURE_HINT}`, '--picture');
        }
      });
    const cautions = partStripCautions(runs, part.rule);
    if (options.json) printJson('batten', part, asJson(runs), [...part.warnings, ...cautions]);
    else writeLine(asText(part, runs, cautions));
    printWarnings(part);
  });

const SHOW_PICTURE_HINT = 'For that: fairlath show JOB --picture FILE.svg.';

function adviseFromOptions(part: Part, options: BattenOptions): RunsAdvice {
  const length = (option: 'thickness' | 'width'): { [option]?: number } => {
    const typed = options[option];
    return typed === undefined
      ? {}
      : { [option]: parseLengthOption(`--${option}`, typed, part.rule.unit, 'positive') };
  };
  return adviseStrips(part, {
    species: atOption('--species', () => chooseStripSpecies(options.species, part.stock?.species)),
    rule: part.rule,
    ...length('thickness'),
    ...length('width'),
  });
}

function asJson(runs: RunsAdvice): object {
  const advice = stripToCut(runs);
  return {
    species: advice.species.name,
    thickness: advice.thickness,
    width: advice.width,
    cutLength: advice.cutLength,
    strain: advice.strain,
    safeStrain: advice.safeStrain,
    breakingStrain: advice.breakingStrain,
    verdict: advice.verdict,
    maxThickness: advice.maxThickness,
    nails: runs.flatMap((run) =>
      run.advice.nails.map(({ at, force, side, centers }) => ({
        edge: run.edge,
        at: pointJson(at),
        force,
        side,
        centres: centers.map(pointJson),
      })),
    ),
  };
}

function asText(part: Part, runs: RunsAdvice, cautions: readonly Warning[]): string {
  const length = (mm: number): string => showLength(mm, part.rule);
  const several = runs.length > 1;
  const nails = runs.flatMap(({ edge, advice }) => {
    const lines = describeNails(advice, part.rule);
    return lines.length > 0 ? [[...(several ? [`${edge}:`] : []), ...lines].join('\n  ')] : [];
  });
  return [
    part.name,
    describeStrip(stripToCut(runs), length, part.rule.unit).join('\n'),
    ...nails,
    ...otherCurvesText(runs),
    ['Take care:', ...cautions.map(({ message }) => `- ${message}`)].join('\n'),
  ].join('\n\n');
}

/** Why a curve of another kind has no nails in the list. */
function otherCurvesText(runs: RunsAdvice): string[] {
  const kinds = new Set(runs.map(({ curve }) => curve.kind));
  const others = [...kinds].filter((kind) => kind !== 'batten' && kind !== 'bow');
  const named = others.map((kind) => `${/^[ae]/.test(kind) ? 'an' : 'a'} ${kind}`).join(' and ');
  return [
    ...(kinds.has('bow') ? ['A bow needs no nails: a string draws its ends together.'] : []),
    ...(others.length > 0
      ? [
          `No strip takes ${named} of itself, so there is no list of nails: hold it to the offsets, a nail at each, or ` +
            'trace the printed pattern.',
        ]
      : []),
  ];
}
