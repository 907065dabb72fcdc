import type { Cutter, Template } from '../../part/derived/router-template.ts';
import type { Part } from '../../part/part.ts';
import { finishedLine } from '../../part/part-lines.ts';
import { capitalize } from '../../units/number-format.ts';
import { printedSize } from '../drawing/dimensions.ts';
import type { PatternNotes } from './pattern-notes.ts';

/** With the part's own line. */
export function templateNotes(part: Part, { inside, warnings }: Template, cutter: Cutter): PatternNotes {
  const length = (mm: number): string => printedSize(mm, part.rule);
  const { guide, guideDiameter, bitDiameter, opening } = cutter;
  const side = inside < 0 ? 'larger' : 'smaller';
  const offset = length(Math.abs(inside));
  const same = Math.abs(inside) < 1e-9;
  const size = same
    ? 'the template has the part’s own size'
    : `the template is ${side} all round by ${offset}`;
  return {
    what: opening ? 'router template, an opening' : 'router template',
    line: 'edge of the template',
    referenceCurve: {
      path: finishedLine(part.shape),
      closed: part.shape.type === 'closed',
      label: 'edge of the part',
    },
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
      `The solid line is a true parallel of the part’s line, ${same ? 'on it' : `${offset} ${inside < 0 ? 'outside' : 'inside'} it`}; the thin line is the part’s.`,
    ],
    cautions: [
      'At the router the manuals of the machine and of the bit come first: speed for the bit’s diameter, bush or bearing tight and centred on the bit, template fixed to clamped stock, no more than a light pass at a time. Unplug it to change the bit.',
      'Feed against the bit’s rotation: round the outside of a part anticlockwise with a hand-held router, inside an opening clockwise, on a table the other way round. Saw close to the line first, take care where the grain turns against the cut, and never start at a point without a lead-in.',
    ],
  };
}
