import { checkEdge, type Deviation, type EdgeCheck } from '../../check/check-edge.ts';
import { deviationSide } from '../../check/deviation-side.ts';
import { readReadings } from '../../check/readings/read-readings.ts';
import { describeExcess } from '../../job/parse/read-yaml.ts';
import { REFERENCE_LINE } from '../../part/offsets.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { errorText } from '../../units/fault.ts';
import { graduationMm } from '../../units/graduation.ts';
import { readOnRule } from '../../units/rule.ts';
import { byId, el } from '../dom.ts';
import { type MessageLine, MessageList } from '../panels/message-list.ts';
import { openTextFile, rejectTooLongInput } from '../state/browser-files.ts';
import { messageWithLine, userFaults } from '../state/evaluate-job.ts';
import type { Store } from '../state/store.ts';
import type { Highlight } from './highlight.ts';
import { RULE_PX, type Viewport } from './viewport.ts';

/** Size of the largest deviation on the screen, px, and the most that deviations are enlarged. */
const [WORST_PX, MAX_TIMES] = [60, 100];

const warningLine = (text: string): MessageLine => ({ text, className: 'warning' });

export class ReadingsLayer {
  private check: EdgeCheck | undefined;
  /** Why the last input was refused; shown until the readings change. */
  private rejected: readonly string[] = [];
  private readonly text = byId<HTMLTextAreaElement>('readings');
  private readonly edge = byId<HTMLSelectElement>('readings-edge');
  private readonly messageList;
  /** By job number: readings belong to one part only. */
  private readonly savedByJob = new Map<number, { text: string; edge: string | undefined }>();
  private chosen: string | undefined;
  private jobNumber: number;

  constructor(
    private readonly viewport: Viewport,
    private readonly store: Store,
    highlight: Highlight,
  ) {
    this.messageList = new MessageList(byId('readings-said'), highlight);
    this.text.addEventListener('input', () => this.recheck());
    rejectTooLongInput(this.text, (text) => this.reject(text));
    this.edge.addEventListener('change', () => {
      this.chosen = this.edge.value;
      this.recheck();
    });
    byId('readings-open').addEventListener('click', () => this.open());
    this.jobNumber = store.jobNumber;
    store.onChange(() => {
      this.followJob();
      viewport.layer('measured').addClass('old');
    });
    store.onIdle(() => this.compare());
    viewport.onViewChange(() => this.draw());
  }

  private recheck(): void {
    this.rejected = [];
    this.compare();
  }

  private async open(): Promise<void> {
    const { jobNumber } = this;
    try {
      const opened = await openTextFile('.csv,.txt');
      // They belong to the part that was shown when they were asked for.
      if (!opened || jobNumber !== this.jobNumber) return;
      if (describeExcess(opened.text) === undefined) {
        this.text.value = opened.text;
        this.recheck();
      } else this.reject(opened.text);
    } catch (error) {
      this.rejected = [`The page cannot read this file: ${errorText(error)}`];
      this.compare();
    }
  }

  private reject(text: string): void {
    try {
      readReadings(text, this.store.rule.unit);
    } catch (error) {
      this.rejected = userFaults(error).map((fault) => fault.messageIn(this.store.lengthText));
    }
    this.compare();
  }

  private compare(): void {
    const { evaluated, lengthText } = this.store;
    if (evaluated) this.offerEdges(evaluated.part.edges);
    this.check = undefined;
    const lines = this.rejected.map(warningLine);
    try {
      this.check = evaluated && this.checkReadings(evaluated.part);
      if (this.check) lines.push(...this.resultLines(this.check));
    } catch (error) {
      lines.push(...userFaults(error).map((fault) => warningLine(messageWithLine(fault, lengthText))));
    }
    this.messageList.show(lines);
    this.draw();
  }

  private checkReadings(part: Part): EdgeCheck | undefined {
    const edge = part.edges.find(({ name }) => name === this.edge.value);
    const text = this.text.value;
    if (!edge || text.trim() === '') return undefined;
    const tolerance = graduationMm(part.rule);
    const readings = readReadings(text, part.rule.unit);
    return checkEdge(part, edge, readings, { base: REFERENCE_LINE, tolerance, beforeSanding: false });
  }

  private followJob(): void {
    const { jobNumber } = this.store;
    if (jobNumber === this.jobNumber) return;
    this.savedByJob.set(this.jobNumber, { text: this.text.value, edge: this.chosen });
    const { text, edge } = this.savedByJob.get(jobNumber) ?? { text: '', edge: undefined };
    this.text.value = text;
    this.chosen = edge;
    this.rejected = [];
    this.check = undefined;
    this.draw();
    this.jobNumber = jobNumber;
  }

  /** The curved edge comes first: the straight one is seldom measured. */
  private offerEdges(edges: readonly PartEdge[]): void {
    const names = edges.map(({ name }) => name);
    const offered = [...this.edge.options].map(({ value }) => value);
    if (names.join('\n') !== offered.join('\n'))
      this.edge.replaceChildren(...names.map((name) => el('option', { value: name }, name)));
    const curved = edges.find(({ runs }) => runs.some(({ kind }) => kind !== 'line'));
    this.edge.value = names.find((name) => name === this.chosen) ?? curved?.name ?? names[0] ?? '';
  }

  private resultLines({ readings, worst, verdict, tolerance, edge, line }: EdgeCheck): MessageLine[] {
    const { ruleText, lengthText } = this.store;
    const rows = readings
      .filter(({ verdict }) => verdict !== 'true')
      .map((each) => ({
        text: `station ${ruleText(each.station)}: ${this.deviationText(line, each.proud)}`,
        target: () => ({ at: { x: each.station, y: each.design } }),
      }));
    const result = verdict === 'within' ? 'within' : 'outside the tolerance of';
    const whole = `${edge}, ${result} ${lengthText(tolerance)}. Largest error: ${lengthText(worst)}`;
    return [{ text: whole }, ...rows];
  }

  private deviationText(edge: PartEdge, proud: number): string {
    if (readOnRule(proud, this.store.rule).mark === 0) return 'on the curve';
    return `${this.store.roundedText(Math.abs(proud))} ${deviationSide(this.store.evaluated?.part ?? {}, edge, proud)}`;
  }

  private draw(): void {
    const layer = this.viewport.layer('measured').clear().removeClass('old');
    const { view } = this.viewport;
    if (!this.check) return;
    const { worst, tolerance } = this.check;
    const times = Math.min(WORST_PX / view.scale / Math.max(worst, tolerance), MAX_TIMES);
    const readings = this.check.readings.toSorted((a, b) => a.station - b.station);
    const at = ({ station, design }: Deviation, off: number): string => {
      const { x, y } = this.viewport.toScreen({ x: station, y: design + off * times });
      return `${x.toFixed(1)} ${y.toFixed(1)}`;
    };
    const line = (offOf: (reading: Deviation) => number, name: string): void => {
      const places = readings.map((reading) => at(reading, offOf(reading)));
      layer.path().attr({ d: `M${places.join('L')}`, class: name });
    };
    line(() => tolerance, 'tolerance');
    line(() => -tolerance, 'tolerance');
    line(({ square }) => square, 'tips');
    const teeth = readings.map((reading) => `M${at(reading, 0)}L${at(reading, reading.square)}`);
    layer.path().attr('d', teeth.join('')).addClass('teeth');
    const note = `errors are enlarged ${Number(times.toPrecision(2))} times`;
    layer.plain(note).attr({ x: RULE_PX.left + 12, y: view.height - RULE_PX.across - 12 });
  }
}
