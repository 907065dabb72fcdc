import type { Places, Spot } from '../canvas/highlight.ts';
import { el, write } from '../dom.ts';

/** A line of words; a button where it has a place to show. */
export interface Line {
  readonly words: string;
  readonly className?: string;
  readonly spot?: () => Spot | undefined;
  readonly chosen?: () => void;
}

interface Row {
  readonly item: HTMLElement;
  readonly words: HTMLElement;
  line: Line;
}

/** Lines of words: the same rows stay, only their words change, so that none loses the keyboard. */
export class LineList {
  private readonly rows: Row[] = [];

  constructor(
    private readonly host: HTMLElement,
    private readonly places: Places,
  ) {}

  show(lines: readonly Line[]): void {
    for (const { item } of this.rows.splice(lines.length)) item.remove();
    for (const [i, line] of lines.entries()) {
      const row = this.rowFor(i, line);
      row.line = line;
      row.item.className = line.className ?? '';
      write(row.words, line.words);
    }
    this.places.follow();
  }

  private rowFor(i: number, line: Line): Row {
    const row = this.rows[i];
    if (row && !row.line.spot === !line.spot) return row;
    const made = line.spot ? this.button(line) : plain(line);
    if (row) row.item.replaceWith(made.item);
    else this.host.append(made.item);
    this.rows[i] = made;
    return made;
  }

  private button(line: Line): Row {
    const words = el('button', { type: 'button', class: 'place' });
    const row: Row = { item: el('li', {}, words), words, line };
    this.places.attach(words, () => row.line.spot?.());
    words.addEventListener('click', () => row.line.chosen?.());
    return row;
  }
}

function plain(line: Line): Row {
  const item = el('li');
  return { item, words: item, line };
}
