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
  /** A line of the part drawn dashed beside it, mm. */
  readonly referenceCurve: MapLine & { readonly label: string };
  readonly sections: readonly { readonly title: string; readonly steps: readonly string[] }[];
  readonly sentences: readonly string[];
  readonly safety: readonly SafetyId[];
}

/** With the line that the wood springs back to. */
export function formNotes(form: Form, lamination: Lamination, edge: string, species: Species): PatternNotes {
  const words = printedLengthWords(form.part.rule);
  const { size, chart, lengths, sides, springback } = describePlies(form, lamination, species, words);
  const { plies } = lamination;
  const strips = `${lengths} Make them a little wider than the part.`;
  const [below, above] = ['FORM THIS SIDE', 'PLIES THIS SIDE'] as const;
  return {
    what: 'bending form',
    line: 'face of the form',
    sides: form.pliesAbove ? [above, below] : [below, above],
    referenceCurve: { path: form.asked, closed: false, label: 'the line it springs back to' },
    sections: [
      { title: 'The lamination', steps: [size, chart, strips].map(typesetMeasures) },
      {
        title: 'The form',
        steps: [
          `${sides} Its face touches the plies along the edge “${edge}”. The chord’s ends lie on the reference line; beyond them the face runs on straight for clamps.`,
          typesetMeasures(springback),
          'Build the form square and as thick as the part is wide, wax it, and clamp from the middle to the ends with a caul or strap over the plies.',
        ],
      },
    ],
    sentences: [
      `The solid line is the part’s own line with its curvature raised by ${plies ** 2}⁄${plies ** 2 - 1} (1⁄${plies ** 2} of it springs back); the dashed line is what is left.`,
    ],
    safety: ['form-force', 'form-glue'],
  };
}

/** With the part's own line. */
export function templateNotes(part: Part, { inside, warnings }: Template, cutter: Cutter): PatternNotes {
  const length = (mm: number): string => printedSize(mm, part.rule);
  const { guide, guideDiameter, bitDiameter, opening } = cutter;
  const { shape } = part;
  const [side, where] = inside < 0 ? ['larger', 'outside'] : ['smaller', 'inside'];
  const offset = length(Math.abs(inside));
  const same = Math.abs(inside) < 1e-9;
  const size = `the template ${same ? 'has the part’s own size' : `is ${side} all round by ${offset}`}`;
  return {
    what: opening ? 'router template, an opening' : 'router template',
    line: 'edge of the template',
    referenceCurve: { path: finishedLine(shape), closed: shape.type === 'closed', label: 'edge of the part' },
    sections: [
      {
        title: 'The template',
        steps: [
          `For a ${guide} of ${length(guideDiameter)} outside diameter and a bit of ${length(bitDiameter)}: ${size}, half of what the one exceeds the other. Any other pair needs another template.`,
          opening
            ? 'Cut the opening to the solid line. The guide runs inside it, and the recess gets the part’s shape; its inside corners come out as round as the bit.'
            : `Cut the template to the solid line and let it run on past the ends of the cut, so that the guide bears before the bit touches wood and after it leaves.${inside > 0 ? ` Where it has a sharp outside corner the guide rolls round it and the part gets a radius of ${offset}.` : ''}`,
          'Smooth its edge: every bump is copied. Rout a piece of scrap and measure before the part.',
          ...warnings.map(({ message }) => capitalize(message)),
        ],
      },
    ],
    sentences: [
      `The solid line is a true parallel of the part’s line, ${same ? 'on it' : `${offset} ${where} it`}; the dashed line is the part’s.`,
    ],
    safety: ['router-manual', 'router-hold', 'router-feed', 'router-passes'],
  };
}
