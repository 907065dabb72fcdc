import { type Check, checkEdge } from '../../check/check-edge.ts';
import { readReadings } from '../../check/readings/read-readings.ts';
import { tooLong } from '../../job/parse/read-yaml.ts';
import { REFERENCE_LINE } from '../../part/offsets.ts';
import type { Part, PartEdge } from '../../part/part.ts';
import { graduationMm } from '../../units/graduation.ts';
import { readOnRule } from '../../units/rule.ts';
import { byId, el } from '../dom.ts';
import { type Line, LineList } from '../panels/message-list.ts';
import { openText, refuseTooLong, whyOf } from '../state/browser-files.ts';
import { faultsIn, inLine } from '../state/evaluate-job.ts';
import type { Bench } from '../state/store.ts';
import type { Places } from './highlight.ts';
import { toScreen } from './view-transform.ts';
import { RULE_PX, type Stage } from './viewport.ts';

/** What is off at worst stands off so far on the screen, px; never more than so many times as large. */
const [WORST_PX, MOST_TIMES] = [60, 100];

const warning = (words: string): Line => ({ words, className: 'warning' });

/** Of one part: its readings, and the edge they are of once that is chosen. */
interface Kept {
  readonly text: string;
  readonly edge: string | undefined;
}

/** Readings of a sawn part laid over its line, what is off drawn many times as large. */
export class Measured {
  private check: Check | undefined;
  /** What was to be put among the readings and could not be: it is told until they are changed. */
  private refused: readonly string[] = [];
  private readonly text = byId<HTMLTextAreaElement>('readings');
  private readonly edge = byId<HTMLSelectElement>('readings-edge');
  private readonly said;
  /** Of each job that has lain on the bench, by number: they are of its part and of no other. */
  private readonly kept = new Map<number, Kept>();
  private chosen: string | undefined;
  private job: number;

  constructor(
    private readonly stage: Stage,
    private readonly bench: Bench,
    places: Places,
  ) {
    this.said = new LineList(byId('readings-said'), places);
    this.text.addEventListener('input', () => this.anew());
    refuseTooLong(this.text, (text) => this.refuse(text));
    this.edge.addEventListener('change', () => {
      this.chosen = this.edge.value;
      this.anew();
    });
    byId('readings-open').addEventListener('click', () => this.open());
    this.job = bench.job;
    bench.changed(() => {
      this.follow();
      stage.layer('measured').addClass('old');
    });
    bench.rests(() => this.compare());
    stage.moved(() => this.draw());
  }

  private anew(): void {
    this.refused = [];
    this.compare();
  }

  private async open(): Promise<void> {
    const { job } = this;
    try {
      const opened = await openText('.csv,.txt');
      // They are of the part that lay on the bench when they were asked for.
      if (!opened || job !== this.job) return;
      if (tooLong(opened.text) !== undefined) {
        this.refuse(opened.text);
        return;
      }
      this.text.value = opened.text;
      this.anew();
    } catch (error) {
      this.refused = [`This file could not be read: ${whyOf(error)}`];
      this.compare();
    }
  }

  /** Tells why a text is not let in; the readings stay as they were. */
  private refuse(text: string): void {
    try {
      readReadings(text, this.bench.rule.unit);
    } catch (error) {
      this.refused = faultsIn(error).map((fault) => fault.messageIn(this.bench.length));
    }
    this.compare();
  }

  private compare(): void {
    const { made, length } = this.bench;
    if (made) this.offerEdges(made.part.edges);
    this.check = undefined;
    let said: readonly Line[] = this.refused.map(warning);
    try {
      this.check = made && this.checked(made.part);
      if (this.check) said = [...said, ...this.lines(this.check)];
    } catch (error) {
      said = [...said, ...faultsIn(error).map((fault) => warning(inLine(fault, length)))];
    }
    this.said.show(said);
    this.draw();
  }

  /** The readings held against their edge; undefined where there are none. */
  private checked(part: Part): Check | undefined {
    const edge = part.edges.find(({ name }) => name === this.edge.value);
    const text = this.text.value;
    if (!edge || text.trim() === '') return undefined;
    const tolerance = graduationMm(part.rule);
    const readings = readReadings(text, part.rule.unit);
    return checkEdge(part, edge, readings, { base: REFERENCE_LINE, tolerance, beforeSanding: false });
  }

  private follow(): void {
    const { job } = this.bench;
    if (job === this.job) return;
    this.kept.set(this.job, { text: this.text.value, edge: this.chosen });
    const { text, edge } = this.kept.get(job) ?? { text: '', edge: undefined };
    this.text.value = text;
    this.chosen = edge;
    this.refused = [];
    this.check = undefined;
    this.draw();
    this.job = job;
  }

  /** The curved edge first: the straight one is seldom what is measured. */
  private offerEdges(edges: readonly PartEdge[]): void {
    const names = edges.map(({ name }) => name);
    const offered = [...this.edge.options].map(({ value }) => value);
    if (names.join('\n') !== offered.join('\n'))
      this.edge.replaceChildren(...names.map((name) => el('option', { value: name }, name)));
    const curved = edges.find(({ runs }) => runs.some(({ kind }) => kind !== 'line'));
    this.edge.value = names.find((name) => name === this.chosen) ?? curved?.name ?? names[0] ?? '';
  }

  private lines({ readings, worst, verdict, tolerance, edge }: Check): Line[] {
    const { bare, length } = this.bench;
    const rows = readings
      .filter(({ mark }) => mark !== 'true')
      .map((each) => ({
        words: `station ${bare(each.station)}: ${this.off(each.proud)}`,
        spot: () => ({ at: { x: each.station, y: each.design } }),
      }));
    const off = verdict === 'within' ? 'within' : 'outside: off by more than';
    const whole = `${edge}, ${off} ${length(tolerance)}; ${length(worst)} at worst`;
    return [{ words: whole }, ...rows];
  }

  /** "1/16 in proud": more wood than asked for. */
  private off(proud: number): string {
    if (readOnRule(proud, this.bench.rule).mark === 0) return 'on the line';
    return `${this.bench.about(Math.abs(proud))} ${proud > 0 ? 'proud' : 'shy'}`;
  }

  private draw(): void {
    const layer = this.stage.layer('measured').clear().removeClass('old');
    const { view } = this.stage;
    if (!this.check) return;
    const { worst, tolerance } = this.check;
    const times = Math.min(WORST_PX / view.scale / Math.max(worst, tolerance), MOST_TIMES);
    const readings = this.check.readings.toSorted((a, b) => a.station - b.station);
    const at = (station: number, offset: number): string => {
      const { x, y } = toScreen(view, { x: station, y: offset });
      return `${x.toFixed(1)} ${y.toFixed(1)}`;
    };
    const along = (off: (deviation: number) => number): string =>
      `M${readings.map((each) => at(each.station, each.design + off(each.deviation) * times)).join('L')}`;
    layer
      .path()
      .attr(
        'd',
        along(() => tolerance),
      )
      .addClass('tolerance');
    layer
      .path()
      .attr(
        'd',
        along(() => -tolerance),
      )
      .addClass('tolerance');
    layer
      .path()
      .attr(
        'd',
        along((deviation) => deviation),
      )
      .addClass('tips');
    const teeth = readings.map(
      ({ station, design, deviation }) =>
        `M${at(station, design)}L${at(station, design + deviation * times)}`,
    );
    layer.path().attr('d', teeth.join('')).addClass('teeth');
    const told = `what is off is drawn ${Number(times.toPrecision(2))} times as large`;
    layer.plain(told).attr({ x: RULE_PX.left + 12, y: view.height - RULE_PX.across - 12 });
  }
}
