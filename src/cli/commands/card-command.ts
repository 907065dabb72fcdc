import { Command } from 'commander';
import { nameAfter } from '../../export/drawing/file-name.ts';
import type { Part } from '../../part/part.ts';
import { PAPER_NAMES, PAPERS, type Paper, parsePaper, USUAL_PAPER } from '../../tiling/paper/paper-sizes.ts';
import { Fault } from '../../units/fault.ts';
import { mustBeFree, writeWhole } from '../files/atomic-files.ts';
import { mustEnd } from '../files/file-extension.ts';
import { readFont } from '../files/load-font.ts';
import { isOurPdf } from '../files/own-files.ts';
import { readGiven, takesJob, warn } from '../options/job-input.ts';
import { atOption } from '../options/option-values.ts';
import { forceOption, outputOption } from '../options/shared-options.ts';
import { printJson } from '../output/json-output.ts';
import { ofOptions, speakingOf } from '../output/report-errors.ts';
import { say } from '../output/stdout.ts';

interface CardCommandOptions {
  readonly output?: string;
  readonly paper?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** `fairlath card JOB -o FILE.pdf`: one page for the shop wall. */
export const makeCommand = (): Command =>
  takesJob(
    new Command('card')
      .summary('one page for the shop wall')
      .description(
        'Write the job card, one page for the shop wall: drawing to scale, offsets, wood and cut list, strip, saw, ' +
          'order of cuts and measures, with boxes for what came out.',
      )
      .addOption(
        outputOption('the PDF to write (default: the part’s name and "card", in the current folder)'),
      )
      .option('--paper <size>', `one of ${PAPER_NAMES} (default: letter, or a4 for a job in mm)`)
      .addOption(forceOption()),
    {
      notes: [
        'The card is no pattern: its drawing is to scale. What does not fit on the page, the card says where to find.',
      ],
      files: 'Reads JOB. Writes the PDF.',
      examples: [
        'fairlath card samples/hall-bench-leg.yaml',
        'fairlath card samples/garden-arch-rail.yaml --paper a3 -o rail-card.pdf',
        'fairlath card --curve batten --chord 28 --rise 3/4 --nail 12 -o curve-card.pdf',
      ],
    },
  ).action(async (file: string | undefined, options: CardCommandOptions) => {
    const { part, file: input, speaker } = readGiven(file, { ...options });
    const output = options.output ?? nameAfter(`${part.name} card`, '.pdf');
    const paper = paperOf(part, options);
    mustBeFree(output, input, isOurPdf, options.force ?? false);
    mustEnd(output, '.pdf');
    const { composeCard } = await import('../../export/card/compose-card.ts');
    const { writePdf } = await import('../../export/writers/pdf.ts');
    const card = speakingOf(ofOptions(speaker), () => composeCard(part, { paper }));
    writeWhole(output, await writePdf([card.page], `${part.name}, card`, readFont()));
    warn(part);
    if (options.json)
      printJson('card', part, { file: output, paper: paper.name, scale: card.scale, ...card.lists });
    else say(`${part.name}: the card is in ${output}\nPrint it at 100 %, so that its drawing is to scale.`);
  });

function paperOf({ rule }: Part, { paper }: CardCommandOptions): Paper {
  return atOption('--paper', () => {
    const found = parsePaper(paper ?? USUAL_PAPER[rule.unit]);
    if (PAPERS.includes(found)) return found;
    throw new Fault('card.paper', `a card is one sheet of a usual size. Name one of ${PAPER_NAMES}.`);
  });
}
