import type { Form } from '../../part/derived/bending-form.ts';
import { floorToGraduation, graduationMm, type LengthFormat } from '../../units/graduation.ts';
import { showFine, showPercent } from '../../units/number-format.ts';
import { plyLengths } from '../plies/plan-plies.ts';
import type { Lamination } from '../strip/lamination.ts';
import { type Species, speciesInSentence } from '../wood/species.ts';

/** The plies, the chart's, their lengths, their side of the form, and the springback. */
export function describePlies(form: Form, lamination: Lamination, species: Species, words: LengthFormat) {
  const { plies, plyThickness, thickness, tightestRadius, strain, safeStrain, safePly, chartPly } =
    lamination;
  const { exact, rounded } = words;
  const { unit } = form.part.rule;
  const [formSide, pliesSide] = form.pliesAbove ? ['below', 'above'] : ['above', 'below'];
  return {
    size:
      `${plies} equal plies of ${showFine(plyThickness, unit)} make ${exact(thickness)}, of ${speciesInSentence(species)}. ` +
      `The tightest bend has a radius of ${rounded(tightestRadius)} and strains a ply by ${showPercent(strain, 2)}. ` +
      `The limit is ${showPercent(safeStrain, 2)}, half of what breaks an average clear piece: a ply of ${showFine(safePly, unit)}.`,
    chart:
      chartPly === undefined
        ? 'Makers’ charts give no ply for a radius under 2" (51 mm). Bend a ply over the form first.'
        : `If you soak the plies, use ${exact(chartPly)} or less: a makers’ chart gives this for the radius. Let soaked plies dry on the form before you glue them.`,
    lengths: lengthWords(form, lamination, words),
    sides: `The form is ${formSide} the curve, and the plies are ${pliesSide} it.`,
    springback: springbackWords(form, lamination, exact),
  };
}

function springbackWords(form: Form, { plies, springbackFrom }: Lamination, exact: LengthFormat['exact']) {
  const rises = `The form rises ${exact(form.rise)} over its chord of ${exact(form.chord)}, and the part ${exact(form.askedRise)}.`;
  if (springbackFrom === 'trial piece')
    return `${rises} The difference is what your trial piece lost. A new batch of wood or glue needs a new trial piece.`;
  return (
    `${rises} Springback takes 1/${plies ** 2} of the bend of ${plies} plies. ` +
    'Real wood and glue vary, so bend a trial piece and measure it first.'
  );
}

function lengthWords(form: Form, lamination: Lamination, { exact, rounded }: LengthFormat): string {
  const { rule } = form.part;
  const [first = 0, second = 0] = plyLengths(form, lamination);
  const { plies } = lamination;
  const last = first + (plies - 1) * (second - first);
  // A ply may be too long, never too short.
  const length = (mm: number): string => rounded(-floorToGraduation(-mm, rule));
  const step = `${showFine(Math.abs(second - first), rule.unit)} ${second > first ? 'more' : 'less'}`;
  const each = ` Or cut each to its own length: ${length(first)} for the ply on the form, ${step} for each further ply.`;
  const same = Math.abs(last - first) < graduationMm(rule);
  return `Cut the ${plies} plies ${length(Math.max(first, last))} long.${same ? '' : each} ${tailWords(form, exact)}`;
}

function tailWords({ tails: [left, right] }: Form, exact: LengthFormat['exact']): string {
  if (Math.abs(left - right) < SAME_MM) return `That leaves ${exact(left)} past the curve at each end.`;
  return `That leaves ${exact(left)} past the curve at the left end, and ${exact(right)} at the right end.`;
}

/** Tails that differ by less are alike on any rule. */
const SAME_MM = 0.01;
