import type { Bench } from './bench.ts';
import { byId, el, write } from './dom.ts';
import { refuseTooLong } from './files.ts';
import type { Places, Spot } from './places.ts';
import { type Told, workOut } from './work.ts';

/** More mistakes than anyone mends at a time: the rest are only counted. */
const MOST_TOLD = 40;

/** The job file: the text beside its line numbers, each mistake at its line with its cure. */
export class TextPanel {
  private readonly text = byId<HTMLTextAreaElement>('job-text');
  private readonly lines = byId('job-lines');
  private readonly told = byId('faults');
  private readonly onSheet = byId('fault-said');
  private readonly panel = byId<HTMLDetailsElement>('job-panel');
  /** How many lines are numbered, and which are wrong. */
  private numbered = '';

  constructor(
    private readonly bench: Bench,
    private readonly places: Places,
  ) {
    this.text.addEventListener('input', () => bench.step(this.text.value, 'typing'));
    refuseTooLong(this.text, (text) => bench.refuse(workOut(text).faults));
    this.text.addEventListener('blur', () => bench.endBurst());
    this.panel.addEventListener('toggle', () => this.draw());
    byId('to-text').addEventListener('click', () => {
      this.panel.open = true;
    });
    bench.changed(() => this.draw());
  }

  draw(): void {
    const { text, faults, told, tried } = this.bench;
    // What nobody sees need not follow the hand.
    if (tried === undefined || this.panel.open) {
      if (this.text.value !== text) this.text.value = text;
      this.number(text, faults);
    }
    this.tell(told);
  }

  private number(text: string, faults: readonly Told[]): void {
    const count = text.split('\n').length;
    const wrong = new Set(faults.map(({ place }) => place?.line));
    const now = `${count} ${[...wrong]}`;
    if (now === this.numbered) return;
    this.numbered = now;
    const marks = Array.from({ length: count }, (_, i) => (wrong.has(i + 1) ? `▸ ${i + 1}` : `${i + 1}`));
    write(this.lines, marks.join('\n'));
    this.text.rows = count + 1;
    this.text.setAttribute('aria-invalid', String(faults.length > 0));
  }

  private tell(faults: readonly Told[]): void {
    const { length } = this.bench;
    const first = faults.slice(0, MOST_TOLD);
    const left = faults.length - first.length;
    const said = first.map(({ place, key, message }) => {
      const where = place ? `line ${place.line}: ` : '';
      return `${where}${key ? `${key}: ` : ''}${message(length)}`;
    });
    const more = left > 0 ? [`and ${left} more`] : [];
    // On the sheet, too: the notes may be scrolled away while the hand drags.
    write(this.onSheet, faults[0]?.message(length) ?? '');
    if (
      [...this.told.children].map(({ textContent }) => textContent).join('\n') ===
      [...said, ...more].join('\n')
    )
      return;
    const rows = first.map((fault, i) => {
      const line = el('button', { type: 'button', class: 'place' }, said[i]!);
      this.places.attach(line, () => this.spotOf(fault));
      line.addEventListener('click', () => this.goTo(fault));
      return el('li', {}, line);
    });
    this.told.replaceChildren(...rows, ...more.map((words) => el('li', { class: 'more' }, words)));
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
