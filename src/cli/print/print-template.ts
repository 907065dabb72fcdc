import { halfOf } from '../../part/derived/half-pattern.ts';
import { type Cutter, type Template, templateOf } from '../../part/derived/router-template.ts';
import type { Part } from '../../part/part.ts';
import { layOut } from '../../tiling/tile.ts';
import { Fault } from '../../units/fault.ts';
import { showSize } from '../../units/rule.ts';
import { atOption, type OptionValues, option, parseLengthOption } from '../options/option-spec.ts';
import type { PreparePrint } from './prepared-print.ts';

export const TEMPLATE_OPTIONS = [
  option('--bit <diameter>', 'diameter of the router bit'),
  option('--bush <diameter>', 'outside diameter of the guide bushing'),
  option('--bearing <diameter>', 'diameter of the bearing on the bit'),
  option('--opening', 'make an opening instead, to rout a recess in the shape of the part'),
] as const;

type TemplateOptions = OptionValues<typeof TEMPLATE_OPTIONS>;

/** `print --template`: the pattern of a router template instead of the part. */
export const prepareTemplate: PreparePrint<TemplateOptions> = async (part, options, sheets) => {
  const { patternPages } = await import('../../export/sheets/pattern-pages.ts');
  const { templateNotes } = await import('../../export/cover/pattern-notes.ts');
  const cutter = readCutter(part, options);
  const template = atOption('--template', () => templateOf(part, cutter));
  const half = <T extends Part>(whole: T): Part =>
    options.half ? atOption('--half', () => halfOf(whole)) : whole;
  const drawn = half(template.part);
  const notes = templateNotes(half(part), template, cutter);
  const layout = layOut(drawn, sheets);
  return {
    part: drawn,
    title: drawn.name,
    layout,
    ...patternPages(drawn, layout, options.cover, notes),
    json: { template: { ...cutter, inside: template.inside } },
    messages: [asText(part, template, cutter)],
    warnings: template.warnings,
  };
};

function readCutter({ rule: { unit } }: Part, options: TemplateOptions): Cutter {
  const { bush, bearing, bit, opening = false } = options;
  if (bush !== undefined && bearing !== undefined)
    throw new Fault('template.guide', 'Use --bush or --bearing, not both.', '--template');
  if (bush === undefined && bearing === undefined) {
    const wording =
      'the guide is missing. Give --bush for a guide bushing or --bearing for a bearing on the bit, such as --bush 5/8.';
    throw new Fault('template.guide', wording, '--template');
  }
  if (bit === undefined) {
    const wording = 'the diameter of the bit is missing. Add it, such as --bit 1/2.';
    throw new Fault('template.no-bit', wording, '--template');
  }
  const diameter = (option: string, typed: string): number =>
    parseLengthOption(option, typed, unit, 'positive');
  const guide = bush === undefined ? 'bearing' : 'bush';
  const guideDiameter = diameter(`--${guide}`, bush ?? bearing ?? '');
  return { guide, guideDiameter, bitDiameter: diameter('--bit', bit), opening };
}

const GUIDE_NAMES: Readonly<Record<Cutter['guide'], string>> = { bush: 'guide bushing', bearing: 'bearing' };

function asText(part: Part, { inside }: Template, { guide, guideDiameter, bitDiameter }: Cutter): string {
  const length = (mm: number): string => showSize(mm, part.rule);
  const tools = `${GUIDE_NAMES[guide]} of ${length(guideDiameter)} and a bit of ${length(bitDiameter)}`;
  if (inside === 0) return `With a ${tools}, the template is the same size as the part.`;
  const size = `${length(Math.abs(inside))} ${inside < 0 ? 'larger' : 'smaller'} than the part`;
  return `With a ${tools}, the template is ${size} all around.`;
}
