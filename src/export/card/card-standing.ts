import type { Part } from '../../part/part.ts';
import { standingWords } from '../../shop/words/foot-out-words.ts';
import { BODY_MM, blankRow, paragraphs } from '../cover/text-columns.ts';
import { printedLength, sentence } from '../drawing/dimensions.ts';
import { standingDrawing } from '../drawing/standing-drawing.ts';
import type { CardSection, SectionVariant } from './fit-sections.ts';

/** To try in turn, mm. */
const HEIGHTS_MM = [70, 52] as const;

/** The leg on the floor; undefined for a part that does not stand out of plumb. Width in mm. */
export function standingSection(part: Part, width: number): CardSection | undefined {
  const told = standingWords(part, (mm) => printedLength(mm, part.rule));
  if (told === undefined) return undefined;
  const list = [sentence(told)];
  const variants = HEIGHTS_MM.flatMap((height): SectionVariant[] => {
    const drawing = standingDrawing(part, { width, height }, BODY_MM);
    if (!drawing) return [];
    const picture = { height: drawing.height, withNext: true, draw: drawing.draw };
    return [{ rows: [picture, blankRow(1), ...paragraphs(list, width)], list }];
  });
  return { name: 'stands', title: 'As it stands', priority: 0, variants, sufficientVariant: 1 };
}
