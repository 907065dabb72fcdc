import { type FootOut, footOut } from '../../part/ends/standing.ts';
import type { Part } from '../../part/part.ts';
import type { ShowLength } from '../../units/fault.ts';
import { showAngle } from '../../units/number-format.ts';
import { quoted } from '../../units/quoted.ts';

/** ", the foot 1 13/16\" outside the top toward "outer" (6°) and 1 1/4\" toward the other face (4°)"; upright, ", upright". */
export function footOutWords(part: Pick<Part, 'stands' | 'ends' | 'edges'>, show: ShowLength): string {
  const [first, ...others] = footOut(part);
  if (!first) return ', upright';
  const rest = others.map((other) => ` and ${show(other.distance)} ${towardWords(other, part)}`).join('');
  return `, the foot ${show(first.distance)} outside the top ${towardWords(first, part)}${rest}`;
}

/** A sentence about a drawing of it; undefined for a part that does not stand, or stands upright. */
export function standingWords(
  part: Pick<Part, 'stands' | 'ends' | 'edges'>,
  show: ShowLength,
): string | undefined {
  const outs = footOut(part).filter(({ by }) => by > 0);
  if (outs.length === 0) return undefined;
  const where = outs.map((out) => `${show(out.distance)} ${towardWords(out, part)}`);
  return `The foot stands ${where.join(' and ')} outside the top. Plumb is drawn dashed.`;
}

function towardWords({ towards, by }: FootOut, { edges }: Pick<Part, 'edges'>): string {
  const isEdge = edges.some(({ name }) => name === towards);
  return `toward ${isEdge ? quoted(towards) : `the ${towards.replace('-', ' ')}`} (${showAngle(by)})`;
}
