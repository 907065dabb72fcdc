import { cardPages } from '../../export/card/compose-card.ts';
import { fileNameFor } from '../../export/drawing/file-name.ts';
import { fullSize } from '../../export/full-size/compose-full-size.ts';
import { fullSizeDxf, fullSizePage, fullSizeSvg } from '../../export/full-size/full-size-files.ts';
import { composeBoard } from '../../export/pictures/board-picture.ts';
import { composePicture } from '../../export/pictures/part-picture.ts';
import { composeSawPicture } from '../../export/pictures/saw-picture.ts';
import { composeStripPicture } from '../../export/pictures/strip-picture.ts';
import { addCutEnds, type OffsetsTable, offsetsTable } from '../../export/tables/offsets-table.ts';
import { offsetsCsv } from '../../export/writers/offsets-csv.ts';
import { type FontSource, writePatternPdf, writePdf } from '../../export/writers/pdf.ts';
import { writeSvg } from '../../export/writers/svg.ts';
import { cutEnds } from '../../part/ends/cut-ends.ts';
import { REFERENCE_LINE, stationsOf } from '../../part/offsets.ts';
import type { Part } from '../../part/part.ts';
import { adviseSawing } from '../../shop/saw/advise-sawing.ts';
import { planStock } from '../../shop/stock/stock-plan.ts';
import { adviseStrips } from '../../shop/strip/part-strips.ts';
import { chooseStripSpecies } from '../../shop/wood/find-species.ts';
import type { Layout } from '../../tiling/layout.ts';
import { DEFAULT_PAPER, parsePaper } from '../../tiling/paper/paper-sizes.ts';

export type PatternLayouts = { readonly layout: Layout; readonly mirrored: Layout | undefined };

export interface Download {
  readonly label: string;
  readonly type: string;
  readonly suffix: string;
  /** Whether it needs the layout over sheets, which takes longer than most papers. */
  readonly make: (part: Part, layouts: () => PatternLayouts, font: FontSource) => Promise<BlobPart>;
}

const inType =
  (type: string) =>
  (label: string, suffix: string, make: Download['make']): Download => ({ label, type, suffix, make });

const pdf = inType('application/pdf');
const svg = inType('image/svg+xml');

export const DOWNLOADS: readonly Download[] = [
  pdf('The pattern, full size (PDF)', '.pdf', async (part, layouts, font) => {
    const { layout, mirrored } = layouts();
    return (await writePatternPdf(part, layout, { font, cover: true, mirrored })) as BlobPart;
  }),
  pdf('The card for the shop wall (PDF)', '-card.pdf', async (part, _layouts, font) => {
    const card = cardPages(part, { paper: parsePaper(DEFAULT_PAPER[part.rule.unit]) });
    return (await writePdf(card, `${part.name}, card`, font)) as BlobPart;
  }),
  svg('The batten and its nails (SVG)', '-strip.svg', async (part) => {
    const species = chooseStripSpecies(undefined, part.stock?.species);
    const runs = adviseStrips(part, { species, rule: part.rule });
    return writeSvg(composeStripPicture(part, runs), `${part.name}: the batten`);
  }),
  svg('The board on the saw (SVG)', '-saw.svg', async (part) => {
    refuseLaminated(part);
    return writeSvg(composeSawPicture(part, adviseSawing(part)), `${part.name}: the saw`);
  }),
  svg('The board layout (SVG)', '-board.svg', async (part) => {
    refuseLaminated(part);
    const plan = planStock(part, {});
    if (!plan.nesting)
      throw new Error('A part with one edge has no shape to lay out on a board. Draw the other edge too.');
    return writeSvg(composeBoard(part, plan, plan.nesting), `${part.name}: the board`);
  }),
  inType('text/csv')('The offsets (CSV)', '-offsets.csv', async (part) =>
    offsetsCsv(part.rule, offsetsTables(part)),
  ),
  svg('A picture with the curvature (SVG)', '-picture.svg', async (part) =>
    writeSvg(composePicture(part), part.name),
  ),
  inType('image/vnd.dxf')('The whole part for a machine (DXF)', '.dxf', async (part) =>
    fullSizeDxf(part, fullSize(part), { unit: 'mm', splines: false }),
  ),
  svg('The whole part for a machine (SVG)', '.svg', async (part) => {
    const full = fullSize(part);
    return fullSizeSvg(part, full, fullSizePage(full).drawing);
  }),
];

function refuseLaminated({ laminate }: Part): void {
  if (laminate) throw new Error('A laminated part is not sawn from a board. Its plies are on the card.');
}

export const fileName = ({ name }: Part, { suffix }: Download): string => fileNameFor(name, suffix);

export const offsetsTables = (part: Part): OffsetsTable[] =>
  part.edges.map((edge) => {
    const cuts = cutEnds(part, edge);
    const stations = addCutEnds(stationsOf(edge, REFERENCE_LINE, part.rule.unit), cuts);
    return offsetsTable(edge, stations, part.rule, REFERENCE_LINE, cuts);
  });
