import { type Form, plyLength, tailLength } from '../../part/derived/bending-form.ts';
import { floorToGraduation, graduationMm, type LengthFormat } from '../../units/graduation.ts';
import { showFine, showPercent } from '../../units/number-format.ts';
import type { Lamination } from '../strip/lamination.ts';
import { type Species, speciesInSentence } from '../wood/species.ts';

/** From the ply on the form outward, trimmed square at the ends of the tails, mm. */
export const plyLengths = (form: Form, { plies, plyThickness }: Lamination): number[] =>
  Array.from({ length: plies }, (_, i) => plyLength(form, (i + 0.5) * plyThickness));

/** The plies, the chart's, their lengths, their side of the form, and what springs back. */
export function describePlies(form: Form, lamination: Lamination, species: Species, words: LengthFormat) {
  const { plies, plyThickness, thickness, tightestRadius, strain, safeStrain, safePly, chartPly } =
    lamination;
  const { exact, rounded } = words;
  const { unit } = form.part.rule;
  const [formSide, pliesSide] = form.pliesAbove ? ['below', 'above'] : ['above', 'below'];
  return {
    size:
      `${plies} equal plies of ${showFine(plyThickness, unit)}, ${exact(thickness)} in all, of ${speciesInSentence(species)}. ` +
      `At its tightest a ply bends to a radius of ${rounded(tightestRadius)} and strains ${showPercent(strain, 2)}. ` +
      `${showPercent(safeStrain, 2)}, half of what breaks the average clear piece, counts as safe: a ply of ${showFine(safePly, unit)}.`,
    chart:
      chartPly === undefined
        ? 'Makers’ charts say nothing of a radius under 2": try a ply over the form first.'
        : `A makers’ chart for soaked strips gives ${exact(chartPly)} for this radius. Soaked plies must dry on the form before they are glued.`,
    lengths: lengthWords(form, lamination, words),
    sides: `The form lies ${formSide} its line, the plies ${pliesSide}.`,
    springback:
      `The form rises ${exact(form.rise)} over its chord of ${exact(form.chord)}, the part ${exact(form.askedRise)}: ${plies} plies lose 1/${plies ** 2} of their bend when the clamps come off. ` +
      'Real wood and glue differ. Bend a trial piece and measure it first.',
  };
}

function lengthWords(form: Form, lamination: Lamination, { exact, rounded }: LengthFormat): string {
  const { rule } = form.part;
  const [first = 0, second = 0] = plyLengths(form, lamination);
  const { plies } = lamination;
  const last = first + (plies - 1) * (second - first);
  // A ply may be too long, never too short.
  const length = (mm: number): string => rounded(-floorToGraduation(-mm, rule));
  const step = `${showFine(Math.abs(second - first), rule.unit)} ${second > first ? 'more' : 'less'}`;
  const each = `, or each to its own length: ${length(first)} for the ply on the form, ${step} for each further ply`;
  const same = Math.abs(last - first) < graduationMm(rule);
  return `Cut the ${plies} plies ${length(Math.max(first, last))} long${same ? '' : each}. That leaves ${exact(tailLength(rule))} past the line at each end.`;
}
