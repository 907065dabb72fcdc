import { lineEnding } from '../../job/edit/text-lines.ts';
import { MAX_TOLD } from '../../units/fault.ts';
import type { Highlight, HighlightTarget } from '../canvas/highlight.ts';
import { byId, updateAttribute, updateText } from '../dom.ts';
import { rejectTooLongInput } from '../state/browser-files.ts';
import { evaluateJob, type JobDiagnostic } from '../state/evaluate-job.ts';
import type { Store } from '../state/store.ts';
import { MessageList } from './message-list.ts';

export class JobTextPanel {
  private readonly text = byId<HTMLTextAreaElement>('job-text');
  private readonly lines = byId('job-lines');
  private readonly faultList;
  private readonly sheetFault = byId('fault-said');
  private readonly panel = byId<HTMLDetailsElement>('job-panel');
  private numbered = '';

  constructor(
    private readonly store: Store,
    highlight: Highlight,
  ) {
    this.faultList = new MessageList(byId('faults'), highlight);
    this.text.addEventListener('input', () => store.push(this.typed, 'typing'));
    rejectTooLongInput(this.text, (text) => store.reject(evaluateJob(text).faults));
    this.text.addEventListener('blur', () => store.endCoalescing());
    this.panel.addEventListener('toggle', () => this.draw());
    byId('to-text').addEventListener('click', () => {
      this.panel.open = true;
    });
    store.onChange(() => this.draw());
  }

  /** A text area ends lines with \n only; this restores the line ends of the file. */
  private get typed(): string {
    return this.text.value.replaceAll('\n', lineEnding(this.store.text));
  }

  draw(): void {
    const { text, faults, diagnostics, previewText } = this.store;
    // A closed panel need not follow the pointer.
    if (previewText === undefined || this.panel.open) {
      if (this.typed !== text) this.setText(text);
      this.numberLines(text, faults);
    }
    this.showFaults(diagnostics);
  }

  /** Replaces the text and keeps the caret where it changes, not at the end. */
  private setText(text: string): void {
    const before = this.text.value;
    this.text.value = text;
    if (document.activeElement !== this.text) return;
    const now = this.text.value;
    let end = now.length;
    const grown = now.length - before.length;
    while (end > Math.max(grown, 0) && now[end - 1] === before[end - grown - 1]) end--;
    this.text.setSelectionRange(end, end);
  }

  private numberLines(text: string, faults: readonly JobDiagnostic[]): void {
    updateAttribute(this.text, 'aria-invalid', String(faults.length > 0));
    const count = text.split('\n').length;
    const wrong = new Set(faults.map(({ position }) => position?.line));
    const now = `${count} ${[...wrong]}`;
    if (now === this.numbered) return;
    this.numbered = now;
    const marks = Array.from({ length: count }, (_, i) => (wrong.has(i + 1) ? `▸ ${i + 1}` : `${i + 1}`));
    updateText(this.lines, marks.join('\n'));
    this.text.rows = count + 1;
  }

  private showFaults(faults: readonly JobDiagnostic[]): void {
    const { lengthText } = this.store;
    const first = faults.slice(0, MAX_TOLD);
    const left = faults.length - first.length;
    const lines = first.map((fault) => {
      const { position, key, message } = fault;
      const where = position ? `line ${position.line}: ` : '';
      const text = `${where}${key ? `${key}: ` : ''}${message(lengthText)}`;
      return { text, target: () => this.targetOf(fault), onChoose: () => this.goTo(fault) };
    });
    this.faultList.show(left > 0 ? [...lines, { text: `and ${left} more`, className: 'more' }] : lines);
    // Also shown on the drawing: the notes may be scrolled away during a drag.
    updateText(this.sheetFault, faults[0]?.message(lengthText) ?? '');
  }

  private targetOf({ key }: JobDiagnostic): HighlightTarget | undefined {
    const { evaluated } = this.store;
    const grip = evaluated?.handles.find(
      (each) => key !== '' && (each.key.startsWith(key) || key.startsWith(each.key)),
    );
    const edge = evaluated?.part.edges.find(({ name }) => key.startsWith(`edges.${name}`));
    return grip && !key.endsWith(`.${grip.edge}`) ? grip : { edge: (edge ?? evaluated?.part.edges[0])?.name };
  }

  private goTo({ position }: JobDiagnostic): void {
    if (!position) return;
    this.panel.open = true;
    const lines = this.text.value.split('\n');
    const start = lines.slice(0, position.line - 1).reduce((sum, line) => sum + line.length + 1, 0);
    this.text.focus();
    this.text.setSelectionRange(start, start + (lines[position.line - 1]?.length ?? 0));
  }
}
