import type { Part } from '../../part/part.ts';
import { adviseStrips, type RunsAdvice, stripToCut } from '../../shop/strip/part-strips.ts';
import { chooseStripSpecies } from '../../shop/wood/find-species.ts';
import { describeNails, describeStrip, partStripCautions } from '../../shop/words/describe-strip.ts';
import type { SafetyNote } from '../../shop/words/safety.ts';
import { Fault } from '../../units/fault.ts';
import { lengthFormat } from '../../units/graduation.ts';
import { present } from '../../units/lists.ts';
import { jobCommand } from '../define-command.ts';
import { writePicture } from '../files/atomic-write.ts';
import { atOption, type OptionValues, optional, readLengths } from '../options/option-spec.ts';
import { forceOption, pictureOption, speciesOption } from '../options/shared-options.ts';
import { pick, pointJson, safetyText } from '../output/print-answer.ts';
import { withFaultContext } from '../output/report-errors.ts';

const OPTIONS = [
  speciesOption('the batten'),
  ...optional({
    '--thickness <length>':
      'thickness, at the start if tapered (default: the thickest that wood and nails allow, up to 1/2" or 12 mm)',
    '--width <length>': 'width of the batten, which is on edge (default: 3/4" or 20 mm)',
  }),
  pictureOption('also draw the batten over its nails, to scale'),
  forceOption,
] as const;

export const makeCommand = jobCommand({
  name: 'batten',
  summary: 'the batten for the curve, and the centers of its nails',
  description:
    'Choose the batten for the curve: thickness, length, and strain beside the safe and the breaking strain. Also list ' +
    'the center of each nail and the force on it.',
  options: OPTIONS,
  notes: [
    'The figures are averages of clear, straight-grained wood (USDA Wood Handbook). Half of the breaking strain ' +
      'counts as safe. Your batten may be weaker.',
  ],
  files: 'Reads JOB. Writes the SVG that --picture names.',
  safety: ['strip.spring'],
  examples: [
    'fairlath batten samples/hall-bench-leg.yaml',
    'fairlath batten samples/hall-bench-leg.yaml --picture batten.svg',
    'fairlath batten samples/garden-arch-rail.yaml --species "Sitka spruce" --thickness 8',
    'fairlath batten --curve batten --chord 28 --rise 3/4 --nail 12 --species ash',
  ],
  run: async ({ part, context, file }, options) => {
    const runs = withFaultContext(context, () => adviseFromOptions(part, options));
    await writePicture(options, [file], `${part.name}: the batten`, () => composePicture(part, runs));
    const cautions = partStripCautions(runs, part.rule);
    return {
      part,
      jsonWarnings: [...part.warnings, ...cautions],
      json: () => asJson(runs),
      text: () => asText(part, runs, cautions),
    };
  },
});

async function composePicture(part: Part, runs: RunsAdvice) {
  const { composeStripPicture } = await import('../../export/pictures/strip-picture.ts');
  try {
    return composeStripPicture(part, runs);
  } catch (error) {
    if (!(error instanceof Fault) || error.code !== 'strip.no-nails') throw error;
    const hint = 'Use: fairlath show JOB --picture FILE.svg';
    throw new Fault(error.code, `${error.message} ${hint}`, '--picture');
  }
}

const adviseFromOptions = (part: Part, options: OptionValues<typeof OPTIONS>): RunsAdvice =>
  adviseStrips(part, {
    species: atOption('--species', () => chooseStripSpecies(options.species, part.stock?.species)),
    rule: part.rule,
    ...readLengths(options, ['thickness', 'width'], part.rule.unit),
  });

function asJson(runs: RunsAdvice): object {
  const advice = stripToCut(runs);
  return {
    species: advice.species.name,
    ...pick(advice, 'thickness', 'width', 'cutLength', 'strain', 'safeStrain', 'breakingStrain', 'verdict'),
    maxThickness: advice.maxThickness,
    suitable: !advice.others,
    alternatives: advice.others ?? [],
    nails: runs.flatMap((run) =>
      run.advice.nails.map(({ at, force, side, centers, clamp }) => ({
        edge: run.edge,
        at: pointJson(at),
        force,
        side,
        centres: centers.map(pointJson),
        ...(clamp && { clamp: { ...clamp, to: pointJson(clamp.to) } }),
      })),
    ),
  };
}

function asText(part: Part, runs: RunsAdvice, cautions: readonly SafetyNote[]): string {
  const nails = runs.flatMap(({ edge, advice }) => {
    const lines = describeNails(advice, part.rule);
    return lines.length > 0 ? present(runs.length > 1 && `${edge}:`, ...lines).join('\n  ') : [];
  });
  return [
    part.name,
    describeStrip(stripToCut(runs), lengthFormat(part.rule)).join('\n'),
    ...nails,
    ...whyNoNails(runs),
    safetyText(cautions),
  ].join('\n\n');
}

function whyNoNails(runs: RunsAdvice): string[] {
  const kinds = new Set(runs.map(({ curve }) => curve.kind));
  const others = [...kinds].filter((kind) => kind !== 'batten' && kind !== 'bow');
  const named = others.map((kind) => `${/^[ae]/.test(kind) ? 'an' : 'a'} ${kind}`).join(' and ');
  return present(
    kinds.has('bow') && 'A bow needs no nails: a string draws its ends together.',
    others.length > 0 &&
      `A batten does not take the shape of ${named} by itself, so fairlath lists no nails. Set nails close on both sides of the batten at each ` +
        'offset, or trace the printed pattern.',
  );
}
