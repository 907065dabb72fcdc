import { halfOf } from '../../part/derived/half-pattern.ts';
import { type Cutter, type Template, templateOf } from '../../part/derived/router-template.ts';
import type { Part } from '../../part/part.ts';
import { layOut } from '../../tiling/tile.ts';
import { Fault } from '../../units/fault.ts';
import { showSize } from '../../units/rule.ts';
import { atOption, type OptionValues, option, parseLengthOption } from '../options/option-spec.ts';
import type { PreparePrint } from './prepared-print.ts';

export const TEMPLATE_OPTIONS = [
  option('--bit <diameter>', 'of the router bit'),
  option('--bush <diameter>', 'outside diameter of the guide bush'),
  option('--bearing <diameter>', 'of the bearing on the bit'),
  option('--opening', 'the template as an opening, for a recess of the part’s shape: larger all round'),
] as const;

type TemplateOptions = OptionValues<typeof TEMPLATE_OPTIONS>;

/** `print --template`: the pattern of a router's template instead of the part's. */
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
  if ((bush === undefined) === (bearing === undefined)) {
    const wording =
      'a template needs what runs along it, one of the two: --bush, the outside diameter of a guide bush, or --bearing, that of a bearing on the bit.';
    throw new Fault('template.guide', wording, '--template');
  }
  if (bit === undefined)
    throw new Fault('template.no-bit', 'a template needs the bit’s diameter: --bit 1/2.', '--template');
  const diameter = (option: string, typed: string): number =>
    parseLengthOption(option, typed, unit, 'positive');
  const guide = bush === undefined ? 'bearing' : 'bush';
  const guideDiameter = diameter(`--${guide}`, bush ?? bearing ?? '');
  return { guide, guideDiameter, bitDiameter: diameter('--bit', bit), opening };
}

function asText(part: Part, { inside }: Template, { guide, guideDiameter, bitDiameter }: Cutter): string {
  const length = (mm: number): string => showSize(mm, part.rule);
  const size =
    inside === 0
      ? 'the part’s own size'
      : `${inside < 0 ? 'larger' : 'smaller'} all round by ${length(Math.abs(inside))}`;
  return `For a ${guide} of ${length(guideDiameter)} and a bit of ${length(bitDiameter)}: ${size}.`;
}
