import { eolOf } from '../../job/edit/text-lines.ts';
import type { Places, Spot } from '../canvas/highlight.ts';
import { byId, put, write } from '../dom.ts';
import { refuseTooLong } from '../state/browser-files.ts';
import { type Told, workOut } from '../state/evaluate-job.ts';
import type { Bench } from '../state/store.ts';
import { LineList } from './message-list.ts';

/** More mistakes than anyone mends at a time: the rest are only counted. */
const MOST_TOLD = 40;

/** The job file: the text beside its line numbers, each mistake at its line with its cure. */
export class TextPanel {
  private readonly text = byId<HTMLTextAreaElement>('job-text');
  private readonly lines = byId('job-lines');
  private readonly told;
  private readonly onSheet = byId('fault-said');
  private readonly panel = byId<HTMLDetailsElement>('job-panel');
  /** How many lines are numbered, and which are wrong. */
  private numbered = '';

  constructor(
    private readonly bench: Bench,
    places: Places,
  ) {
    this.told = new LineList(byId('faults'), places);
    this.text.addEventListener('input', () => bench.step(this.typed, 'typing'));
    refuseTooLong(this.text, (text) => bench.refuse(workOut(text).faults));
    this.text.addEventListener('blur', () => bench.endBurst());
    this.panel.addEventListener('toggle', () => this.draw());
    byId('to-text').addEventListener('click', () => {
      this.panel.open = true;
    });
    bench.changed(() => this.draw());
  }

  /** A field ends its lines by \n alone: a file that ends them otherwise is saved as it came. */
  private get typed(): string {
    return this.text.value.replaceAll('\n', eolOf(this.bench.text));
  }

  draw(): void {
    const { text, faults, told, tried } = this.bench;
    // What nobody sees need not follow the hand.
    if (tried === undefined || this.panel.open) {
      if (this.typed !== text) this.write(text);
      this.number(text, faults);
    }
    this.tell(told);
  }

  /** Another text in the field; who types goes on typing where it is another, not at its end. */
  private write(text: string): void {
    const before = this.text.value;
    this.text.value = text;
    if (document.activeElement !== this.text) return;
    const now = this.text.value;
    let [end, same] = [now.length, before.length];
    while (end > 0 && same > 0 && now[end - 1] === before[same - 1]) [end, same] = [end - 1, same - 1];
    this.text.setSelectionRange(end, end);
  }

  private number(text: string, faults: readonly Told[]): void {
    put(this.text, 'aria-invalid', String(faults.length > 0));
    const count = text.split('\n').length;
    const wrong = new Set(faults.map(({ place }) => place?.line));
    const now = `${count} ${[...wrong]}`;
    if (now === this.numbered) return;
    this.numbered = now;
    const marks = Array.from({ length: count }, (_, i) => (wrong.has(i + 1) ? `▸ ${i + 1}` : `${i + 1}`));
    write(this.lines, marks.join('\n'));
    this.text.rows = count + 1;
  }

  private tell(faults: readonly Told[]): void {
    const { length } = this.bench;
    const first = faults.slice(0, MOST_TOLD);
    const left = faults.length - first.length;
    const said = first.map((fault) => {
      const { place, key, message } = fault;
      const where = place ? `line ${place.line}: ` : '';
      return {
        words: `${where}${key ? `${key}: ` : ''}${message(length)}`,
        spot: () => this.spotOf(fault),
        chosen: () => this.goTo(fault),
      };
    });
    this.told.show(left > 0 ? [...said, { words: `and ${left} more`, className: 'more' }] : said);
    // On the sheet, too: the notes may be scrolled away while the hand drags.
    write(this.onSheet, faults[0]?.message(length) ?? '');
  }

  /** The place that a fault's key names: a grip's, or else its edge. */
  private spotOf({ key }: Told): Spot | undefined {
    const { made } = this.bench;
    const grip = made?.grips.find(
      (each) => key !== '' && (each.key.startsWith(key) || key.startsWith(each.key)),
    );
    const edge = made?.part.edges.find(({ name }) => key.startsWith(`edges.${name}`));
    return grip && !key.endsWith(`.${grip.edge}`) ? grip : { edge: (edge ?? made?.part.edges[0])?.name };
  }

  private goTo({ place }: Told): void {
    if (!place) return;
    this.panel.open = true;
    const lines = this.text.value.split('\n');
    const start = lines.slice(0, place.line - 1).reduce((sum, line) => sum + line.length + 1, 0);
    this.text.focus();
    this.text.setSelectionRange(start, start + (lines[place.line - 1]?.length ?? 0));
  }
}
