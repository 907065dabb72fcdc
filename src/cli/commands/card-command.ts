import { fileNameFor } from '../../export/drawing/file-name.ts';
import type { Part } from '../../part/part.ts';
import { DEFAULT_PAPER, PAPER_NAMES, PAPERS, parsePaper } from '../../tiling/paper/paper-sizes.ts';
import { Fault } from '../../units/fault.ts';
import { jobCommand } from '../define-command.ts';
import { writeFileAtomic } from '../files/atomic-write.ts';
import { requireOutput } from '../files/output-file.ts';
import { loadFont } from '../files/read-text.ts';
import { atOption, type OptionValues, option } from '../options/option-spec.ts';
import { forceOption, outputOption } from '../options/shared-options.ts';
import { withFaultContext } from '../output/report-errors.ts';

const OPTIONS = [
  outputOption('PDF to write (default: the name of the part and "card", in the current folder)'),
  option('--paper <size>', `paper: ${PAPER_NAMES} (default: letter, or a4 for a job in mm)`),
  forceOption,
] as const;

export const makeCommand = jobCommand({
  name: 'card',
  summary: 'the part, its figures and its cuts, for the shop wall',
  description:
    'Write the job card for the shop wall: drawing, offsets, cut list, batten, saw and order of cuts. ' +
    'The card has a back where the front does not hold everything: print it on both sides of one sheet. ' +
    'Write what you measure into the boxes beside the check distances.',
  options: OPTIONS,
  notes: [
    'The card is not a pattern: its drawing is to scale. If something does not fit, the card says where to find it.',
  ],
  files: 'Reads JOB. Writes the PDF.',
  examples: [
    'fairlath card samples/hall-bench-leg.yaml',
    'fairlath card samples/garden-arch-rail.yaml --paper a3 -o rail-card.pdf',
    'fairlath card --curve batten --chord 28 --rise 3/4 --nail 12 -o curve-card.pdf',
  ],
  run: async ({ part, context, file }, options) => {
    const output = options.output ?? fileNameFor(`${part.name} card`, '.pdf');
    const paper = readCardPaper(part, options);
    requireOutput(output, { ending: '.pdf', inputs: [file], force: options.force });
    const { composeCard } = await import('../../export/card/compose-card.ts');
    const { writePdf } = await import('../../export/writers/pdf.ts');
    const card = withFaultContext(context, () => composeCard(part, { paper }));
    const { measures: checks, ...lists } = card.lists;
    writeFileAtomic(output, await writePdf(card.pages, `${part.name}, card`, loadFont));
    return {
      part,
      json: () => ({ file: output, paper: paper.name, scale: card.scale, checks, ...lists }),
      text: () =>
        `Wrote ${output}: the card of ${part.name}.\nPrint it at 100%, so that its drawing is to scale.`,
    };
  },
});

function readCardPaper({ rule }: Part, { paper }: OptionValues<typeof OPTIONS>) {
  return atOption('--paper', () => {
    const name = paper ?? DEFAULT_PAPER[rule.unit];
    const found = parsePaper(name);
    if (PAPERS.includes(found)) return found;
    throw new Fault('card.paper', `"${name}" is not a paper size for a card. Use one of ${PAPER_NAMES}.`);
  });
}
