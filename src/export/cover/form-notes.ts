import type { Form } from '../../part/derived/bending-form.ts';
import { tailLength } from '../../part/derived/bending-form.ts';
import type { Part } from '../../part/part.ts';
import type { Lamination } from '../../shop/strip/lamination.ts';
import { type Species, speciesInSentence } from '../../shop/wood/species.ts';
import { showFine, showPercent } from '../../units/number-format.ts';
import { printedLength } from '../drawing/dimensions.ts';
import type { PatternNotes } from './pattern-notes.ts';

/** With the line that the wood springs back to. */
export function formNotes(
  part: Part,
  edge: string,
  form: Form,
  lamination: Lamination,
  species: Species,
): PatternNotes {
  const length = (mm: number): string => printedLength(mm, part.rule);
  const percent = (share: number): string => showPercent(share, 2);
  const { plies, plyThickness, thickness, strain, safeStrain, chartPly } = lamination;
  const tail = tailLength(part.rule);
  const other = part.edges.find(({ name }) => name !== edge)?.name;
  return {
    what: 'bending form',
    line: 'face of the form',
    referenceCurve: { path: form.asked, closed: false, label: 'the line it springs back to' },
    sections: [
      {
        title: 'The lamination',
        steps: [
          `${plies} equal plies of ${showFine(plyThickness, part.rule.unit)}, ${length(thickness)} in all, of ${speciesInSentence(species)}. At the tightest place of the form a ply strains ${percent(strain)}; half of what breaks the average clear piece, ${percent(safeStrain)}, counts as safe.`,
          chartPly === undefined
            ? 'Makers’ charts say nothing of a radius under 2 in: try a ply over the form first.'
            : `A makers’ chart for soaked strips gives ${length(chartPly)} for this radius. Soaked plies must dry on the form before they are glued.`,
          `Make them ${length(2 * tail)} longer than the line’s ${length(form.length)} and a little wider than the part.`,
        ],
      },
      {
        title: 'The form',
        steps: [
          `Its face touches the plies along the edge “${edge}”; they stack up from it ${other === undefined ? 'on the side of the reference line' : `towards “${other}”`}. The chord’s ends lie on the reference line; beyond them the face runs on straight by ${length(tail)} for clamps.`,
          `It rises ${length(form.rise)} over its chord of ${length(form.chord)}, the part ${length(form.askedRise)}: ${plies} plies lose 1⁄${plies ** 2} of their bend when the clamps come off. That is for elastic wood and glue that does not creep; real wood and glue differ. Bend a trial piece, measure it with “fairlath check”, and change --plies or the curve if it is off.`,
          'Build the form square and as thick as the part is wide, wax it, and clamp from the middle to the ends with a caul or strap over the plies.',
        ],
      },
    ],
    sentences: [
      `The solid line is the part’s own line with its curvature raised by ${plies ** 2}⁄${plies ** 2 - 1} (1⁄${plies ** 2} of it springs back); the thin line is what is left.`,
    ],
    cautions: [
      'Bent plies and straps store force: stand aside of the ends when you clamp and unclamp. Leave the work on the form as long as the glue’s maker says, and wear gloves and eye protection; glue lines chip plane irons.',
    ],
  };
}
