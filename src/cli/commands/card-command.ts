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
  outputOption('the PDF to write (default: the part’s name and "card", in the current folder)'),
  option('--paper <size>', `one of ${PAPER_NAMES} (default: letter, or a4 for a job in mm)`),
  forceOption,
] as const;

export const makeCommand = jobCommand({
  name: 'card',
  summary: 'one page for the shop wall',
  description:
    'Write the job card, one page for the shop wall: drawing to scale, offsets, wood and cut list, strip, saw, ' +
    'order of cuts and measures, with boxes for what came out.',
  options: OPTIONS,
  notes: [
    'The card is no pattern: its drawing is to scale. What does not fit on the page, the card says where to find.',
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
    writeFileAtomic(output, await writePdf([card.page], `${part.name}, card`, loadFont));
    return {
      part,
      json: () => ({ file: output, paper: paper.name, scale: card.scale, ...card.lists }),
      text: () =>
        `${part.name}: the card is in ${output}\nPrint it at 100%, so that its drawing is to scale.`,
    };
  },
});

function readCardPaper({ rule }: Part, { paper }: OptionValues<typeof OPTIONS>) {
  return atOption('--paper', () => {
    const found = parsePaper(paper ?? DEFAULT_PAPER[rule.unit]);
    if (PAPERS.includes(found)) return found;
    throw new Fault('card.paper', `a card is one sheet of a usual size. Name one of ${PAPER_NAMES}.`);
  });
}
