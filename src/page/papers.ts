import { nameAfter } from '../export/file-name.ts';
import { type OffsetsTable, offsetsCsv, offsetsTable, USUAL_ROWS } from '../export/offsets-table.ts';
import { composePicture } from '../export/part-picture.ts';
import { writePatternPdf } from '../export/pdf.ts';
import { writeSvg } from '../export/svg.ts';
import { stationSpacing, stationsEvery } from '../part/offsets.ts';
import type { Part } from '../part/part.ts';
import type { Layout } from '../tiling/layout.ts';

/** A paper to take to the bench. */
export interface Paper {
  readonly label: string;
  readonly type: string;
  readonly ending: string;
  readonly make: (part: Part, layout: Layout | undefined, font: Uint8Array) => Promise<BlobPart>;
}

/** All that can be taken from the page, in the order it is offered: a new writer is one more line here. */
export const PAPERS_TO_TAKE: readonly Paper[] = [
  {
    label: 'The pattern, full size (PDF)',
    type: 'application/pdf',
    ending: '.pdf',
    make: async (part, layout, font) => {
      if (!layout) throw new Error('the part has not been laid over sheets');
      return (await writePatternPdf(part, layout, { font, cover: true })) as BlobPart;
    },
  },
  {
    label: 'A picture with the curvature (SVG)',
    type: 'image/svg+xml',
    ending: '.svg',
    make: async (part) => writeSvg(composePicture(part), part.name),
  },
  {
    label: 'The offsets (CSV)',
    type: 'text/csv',
    ending: '-offsets.csv',
    make: async (part) => `${offsetsCsv(tablesOf(part))}\n`,
  },
];

export const fileName = ({ name }: Part, { ending }: Paper): string => nameAfter(name, ending);

/** The offsets of every edge at stations a maker would tick. */
export const tablesOf = (part: Part): OffsetsTable[] =>
  part.edges.map((edge) => {
    const [from, to] = [edge.runs[0]!.from.x, edge.runs.at(-1)!.to.x];
    const every = stationSpacing(to - from, part.rule.unit, USUAL_ROWS);
    return offsetsTable(edge, stationsEvery(from, to, every), part.rule);
  });
