import { composeCard } from '../../src/export/card/compose-card.ts';
import { writePdf } from '../../src/export/writers/pdf.ts';
import type { Part } from '../../src/part/part.ts';
import { parsePaper } from '../../src/tiling/paper/paper-sizes.ts';
import { BENCH, SAMPLES, samplePart } from '../part/jobs.ts';
import { fontBytes } from './font.ts';
import { readPdf } from './read-pdf.ts';

export const font = fontBytes();
export const ALL = [...SAMPLES, ...BENCH];

export const cardOf = (part: Part, paper = part.rule.unit === 'in' ? 'letter' : 'a4') =>
  composeCard(part, { paper: parsePaper(paper) });

/** A sample's card is composed once for all that is asked of it. */
const cards = new Map<string, ReturnType<typeof composeCard>>();
export function sampleCard(name: string) {
  const card = cards.get(name) ?? cardOf(samplePart(name));
  cards.set(name, card);
  return card;
}

/** And written and read back once. */
const read = new Map<string, ReturnType<typeof readPdf>>();
export function readCard(name: string): ReturnType<typeof readPdf> {
  const card = read.get(name) ?? writePdf(sampleCard(name).pages, name, font).then(readPdf);
  read.set(name, card);
  return card;
}
