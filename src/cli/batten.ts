import { Command } from 'commander';
import type { Part } from '../part/part.ts';
import { stripSpecies } from '../shop/find-species.ts';
import { adviseStrips, hardestOf, type RunAdvice } from '../shop/part-strips.ts';
import { sayNails, sayStrip, stripCautions } from '../shop/say-strip.ts';
import type { Warning } from '../units/fault.ts';
import { showLength } from '../units/rule.ts';
import { readGiven, takesJob, warn } from './job-input.ts';
import { pair, printJson } from './json.ts';
import { atOption, lengthAt } from './option.ts';
import { ofOptions, speakingOf } from './report.ts';
import { say } from './say.ts';
import { speciesOption } from './shared-options.ts';

interface BattenOptions {
  readonly species?: string;
  readonly thickness?: string;
  readonly width?: string;
  readonly json?: boolean;
}

type Runs = readonly [RunAdvice, ...RunAdvice[]];

/** `fairlath batten JOB`: which strip does the curve, and how to hold it. */
export const battenCommand = (): Command =>
  takesJob(
    new Command('batten')
      .summary('which strip takes the curve, and where to nail it')
      .description(
        'Say which strip takes the curve: thickness and length, its strain beside what is safe and what breaks it, ' +
          'where the middle of each nail goes, and the force each nail bears.',
      )
      .addOption(speciesOption('the strip'))
      .option('--thickness <length>', 'of the strip where it starts (default: the thickest that is safe)')
      .option('--width <length>', 'of the strip as it stands on edge (default: 3/4 in or 20 mm)'),
    {
      notes: [
        'The figures are averages of clear, straight-grained wood (USDA Wood Handbook). Half of the breaking strain ' +
          'counts as safe; your strip may be weaker.',
      ],
      files: 'Reads JOB. Writes no file.',
      care: 'A sprung strip flies when it is let go. Wear eye protection, and hold it down while you draw the nails.',
      examples: [
        'fairlath batten samples/hall-bench-leg.yaml',
        'fairlath batten samples/garden-arch-rail.yaml --species "Sitka spruce" --thickness 8',
        'fairlath batten --curve batten --chord 28 --rise 3/4 --nail 12 --species ash',
      ],
    },
  ).action((file: string | undefined, options: BattenOptions) => {
    const { part, speaker } = readGiven(file, { ...options });
    const runs = speakingOf(ofOptions(speaker), () => advise(part, options));
    const cautions = cautionsFor(part, runs);
    if (options.json) printJson('batten', part, asJson(runs), [...part.warnings, ...cautions]);
    else say(asText(part, runs, cautions));
    warn(part);
  });

function advise(part: Part, options: BattenOptions): Runs {
  const length = (option: 'thickness' | 'width'): { [option]?: number } => {
    const typed = options[option];
    return typed === undefined
      ? {}
      : { [option]: lengthAt(`--${option}`, typed, part.rule.unit, 'positive') };
  };
  return adviseStrips(part, {
    species: atOption('--species', () => stripSpecies(options.species, part.stock?.species)),
    rule: part.rule,
    ...length('thickness'),
    ...length('width'),
  });
}

/** Each caution once, the hardest run's words first. */
function cautionsFor({ rule }: Part, runs: Runs): Warning[] {
  const all = [hardestOf(runs), ...runs].flatMap(({ advice }) =>
    stripCautions(advice, (mm) => showLength(mm, rule), rule.unit),
  );
  return all.filter(({ code }, i) => all.findIndex((other) => other.code === code) === i);
}

function asJson(runs: Runs): object {
  const { advice } = hardestOf(runs);
  return {
    species: advice.species.name,
    thickness: advice.thickness,
    width: advice.width,
    cutLength: Math.max(...runs.map((run) => run.advice.cutLength)),
    strain: advice.strain,
    safeStrain: advice.safeStrain,
    breakingStrain: advice.breakingStrain,
    verdict: advice.verdict,
    maxThickness: advice.maxThickness,
    nails: runs.flatMap((run) =>
      run.advice.nails.map(({ at, force, side, centres }) => ({
        edge: run.edge,
        at: pair(at),
        force,
        side,
        centres: centres.map(pair),
      })),
    ),
  };
}

function asText(part: Part, runs: Runs, cautions: readonly Warning[]): string {
  const { unit } = part.rule;
  const length = (mm: number): string => showLength(mm, part.rule);
  const several = runs.length > 1;
  const nails = runs.flatMap(({ edge, advice }) => {
    const lines = sayNails(advice, length, unit);
    return lines.length > 0 ? [[...(several ? [`${edge}:`] : []), ...lines].join('\n  ')] : [];
  });
  const longest = runs.reduce((a, b) => (b.advice.cutLength > a.advice.cutLength ? b : a)).advice.cutLength;
  return [
    part.name,
    sayStrip({ ...hardestOf(runs).advice, cutLength: longest }, length).join('\n'),
    ...nails,
    ['Take care:', ...cautions.map(({ message }) => `- ${message}`)].join('\n'),
  ].join('\n\n');
}
