import type { Highlight, HighlightTarget } from '../canvas/highlight.ts';
import { el, updateText } from '../dom.ts';

/** A line of text; a button if it has a place to show. */
export interface MessageLine {
  readonly text: string;
  readonly className?: string;
  readonly target?: () => HighlightTarget | undefined;
  readonly onChoose?: () => void;
}

interface MessageRow {
  readonly item: HTMLElement;
  readonly textNode: HTMLElement;
  line: MessageLine;
}

/** Lines of text. Rows are reused, so that none loses the keyboard focus. */
export class MessageList {
  private readonly rows: MessageRow[] = [];

  constructor(
    private readonly host: HTMLElement,
    private readonly highlight: Highlight,
  ) {}

  show(lines: readonly MessageLine[]): void {
    for (const { item } of this.rows.splice(lines.length)) item.remove();
    for (const [i, line] of lines.entries()) {
      const row = this.rowFor(i, line);
      row.line = line;
      row.item.className = line.className ?? '';
      updateText(row.textNode, line.text);
    }
    this.highlight.refresh();
  }

  private rowFor(i: number, line: MessageLine): MessageRow {
    const row = this.rows[i];
    if (row && !row.line.target === !line.target) return row;
    const made = this.makeRow(line);
    if (row) row.item.replaceWith(made.item);
    else this.host.append(made.item);
    this.rows[i] = made;
    return made;
  }

  private makeRow(line: MessageLine): MessageRow {
    const item = el('li');
    if (!line.target) return { item, textNode: item, line };
    const textNode = el('button', { type: 'button', class: 'place' });
    item.append(textNode);
    const row: MessageRow = { item, textNode, line };
    this.highlight.attach(textNode, () => row.line.target?.());
    textNode.addEventListener('click', () => row.line.onChoose?.());
    return row;
  }
}
