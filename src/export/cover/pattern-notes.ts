import type { Form } from '../../part/derived/bending-form.ts';
import type { Cutter, Template } from '../../part/derived/router-template.ts';
import type { Part } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import type { Lamination } from '../../shop/strip/lamination.ts';
import type { Species } from '../../shop/wood/species.ts';
import { describePlies } from '../../shop/words/describe-plies.ts';
import type { SafetyId } from '../../shop/words/safety.ts';
import { capitalize } from '../../units/number-format.ts';
import { typesetMeasures } from '../../units/typeset.ts';
import { printedLengthWords, printedSize } from '../drawing/dimensions.ts';
import type { MapLine } from './assembly-map.ts';

/** Words for a pattern that is not the part's own: a router template, a bending form. */
export interface PatternNotes {
  readonly what: string;
  readonly line: string;
  readonly sides?: readonly [left: string, right: string];
  /** Which side of a closed line is cut off; outside where absent. */
  readonly waste?: 'inside';
  /** A line of the part drawn dashed beside it, mm. */
  readonly referenceCurve: MapLine & { readonly label: string };
  readonly sections: readonly { readonly title: string; readonly steps: readonly string[] }[];
  readonly sentences: readonly string[];
  readonly safety: readonly SafetyId[];
}

/** Where the body of the form is. */
export const FORM_SIDE = 'FORM THIS SIDE';

/** With the line that the wood springs back to, and the steps to the finished part where the job says how it is made. */
export function formNotes(
  form: Form,
  lamination: Lamination,
  edge: string,
  species: Species,
  steps: readonly string[] = [],
): PatternNotes {
  const words = printedLengthWords(form.part.rule);
  const { size, chart, lengths, sides, springback } = describePlies(form, lamination, species, words);
  const cutting = `${lengths} Make the plies a little wider than the part.`;
  const [below, above] = [FORM_SIDE, 'PLIES THIS SIDE'] as const;
  return {
    what: 'bending form',
    line: 'face of the form',
    sides: form.pliesAbove ? [above, below] : [below, above],
    referenceCurve: { path: form.asked, closed: false, label: 'after springback: do not cut' },
    sections: [
      { title: 'The lamination', steps: [size, chart, cutting].map(typesetMeasures) },
      {
        title: 'The form',
        steps: [
          `${sides} The face of the form touches the plies along the edge “${edge}”. The ends of its chord are on the reference line. Beyond them the face is straight, for clamps.`,
          typesetMeasures(springback),
          'Build the form square, and as thick as the part is wide. Wax it. Put a caul or strap over the plies, and clamp from the middle to the ends.',
        ],
      },
      ...(steps.length > 0 ? [{ title: 'Order of work', steps: steps.map(typesetMeasures) }] : []),
    ],
    sentences: [
      `The face of the form is the edge of the part with ${sharperWords(lamination)} The dashed curve remains.`,
    ],
    safety: ['form-force', 'form-glue'],
  };
}

const sharperWords = ({ plies, factor, springbackFrom }: Lamination): string =>
  springbackFrom === 'trial piece'
    ? `${factor.toFixed(3)} times its curvature, by your trial piece.`
    : `${plies ** 2}⁄${plies ** 2 - 1} times its curvature. 1⁄${plies ** 2} of the bend springs back.`;

const GUIDE_WORDS: Readonly<Record<Cutter['guide'], string>> = { bush: 'guide bushing', bearing: 'bearing' };

/** With the part's own line. */
export function templateNotes(part: Part, { inside, warnings }: Template, cutter: Cutter): PatternNotes {
  const length = (mm: number): string => printedSize(mm, part.rule);
  const { guide, guideDiameter, bitDiameter, opening } = cutter;
  const { shape } = part;
  const [side, where] = inside < 0 ? ['larger', 'outside'] : ['smaller', 'inside'];
  const offset = length(Math.abs(inside));
  const same = Math.abs(inside) < 1e-9;
  const size = `The template ${same ? 'has the size of the part' : `is ${side} than the part by ${offset} all around, half the difference between the two`}.`;
  return {
    what: opening ? 'router template for a recess' : 'router template',
    line: 'edge of the template',
    ...(opening && { waste: 'inside' as const }),
    referenceCurve: { path: finishedLine(shape), closed: shape.type === 'closed', label: 'edge of the part' },
    sections: [
      {
        title: 'The template',
        steps: [
          `Use a ${GUIDE_WORDS[guide]} of ${length(guideDiameter)} outside diameter and a bit of ${length(bitDiameter)}. ${size} For any other pair, print a new template.`,
          opening
            ? 'Cut the opening along the edge of the template. The guide runs inside it, and the recess gets the shape of the part. Its inside corners are as round as the bit.'
            : `Cut along the edge of the template, and extend it past both ends of the cut. The guide must touch it before the bit enters the wood and after it leaves.${inside > 0 ? ` At a sharp outside corner the guide rolls around it, and the part gets a radius of ${offset}.` : ''}`,
          'Smooth the edge, because every bump is copied. Rout a test piece in scrap and measure it first.',
          ...warnings.map(({ message }) => capitalize(message)),
        ],
      },
    ],
    sentences: [
      `The edge of the template is ${same ? 'the edge of the part' : `parallel to the edge of the part, ${offset} ${where}`}. The dashed curve is the edge of the part.`,
    ],
    safety: ['router-manual', 'router-hold', 'router-feed', 'router-passes'],
  };
}
