import { type Point, point } from '../../curves/geometry/point.ts';
import { JOIN_MM } from '../../curves/geometry/tolerance.ts';
import type { Taper } from '../../curves/tapered/tapered-batten.ts';
import { catchFault, Fault, throwFaults } from '../../units/fault.ts';
import { parseLength } from '../../units/parse-length.ts';
import { quoted } from '../../units/quoted.ts';
import type { Unit } from '../../units/unit.ts';
import { didYouMean } from '../parse/did-you-mean.ts';
import { suggestUnit } from '../parse/read-values.ts';
import type { EndCondition, EndConditions } from '../steps/end-conditions.ts';

/** A curve over a chord, each option as typed on the command line: `--chord 28 --rise 3/4`. */
export interface QuickOptions {
  readonly curve: string;
  readonly chord: string;
  /** The apex, in the middle; with a nail, the offset of the nail at its station. */
  readonly rise?: string;
  readonly nail?: string;
  readonly radius?: string;
  readonly ends?: string;
  readonly strip?: string;
  readonly units?: string;
  readonly graduation?: string;
}

type LengthOption = 'chord' | 'rise' | 'nail' | 'radius';

export class QuickOptionReader {
  private readonly faults: Fault[] = [];

  constructor(private readonly options: QuickOptions) {}

  has(option: keyof QuickOptions): boolean {
    return this.options[option] !== undefined;
  }

  attempt<T>(option: keyof QuickOptions, work: () => T): T | undefined {
    return catchFault(work, (fault) => void this.faults.push(fault.at(`--${option}`)));
  }

  report(option: keyof QuickOptions, code: string, wording: string): undefined {
    this.faults.push(new Fault(code, wording, `--${option}`));
  }

  refuse(option: keyof QuickOptions, wording: string): void {
    if (this.has(option)) this.report(option, 'quick.excluded', wording);
  }

  readLength(option: LengthOption, unit: Unit, sign: 'any' | 'positive' = 'any'): number | undefined {
    const typed = this.options[option];
    return typed === undefined ? undefined : this.attempt(option, () => parseLength(typed, unit, sign));
  }

  requireLength(option: 'rise' | 'radius', unit: Unit): number | undefined {
    if (!this.has(option))
      return this.report(option, 'quick.missing', `missing. Give a length, such as --${option} 3/4.`);
    const length = this.readLength(option, unit);
    if (length === undefined || Math.abs(length) >= JOIN_MM) return length;
    return this.report(option, 'quick.zero', `a ${option} of 0 gives no curve. Use another ${option}.`);
  }

  /** The nail, or the apex in the middle of the chord where no nail is given. */
  readPin(chord: number | undefined, unit: Unit): Point | undefined {
    const rise = this.requireLength('rise', unit);
    const nail = this.readNail(chord, unit);
    return rise === undefined || nail === undefined ? undefined : point(nail, rise);
  }

  private readNail(chord: number | undefined, unit: Unit): number | undefined {
    if (!this.has('nail')) return chord && chord / 2;
    const nail = this.readLength('nail', unit);
    if (nail === undefined || chord === undefined || (nail > JOIN_MM && nail < chord - JOIN_MM)) return nail;
    const ends = `0 and ${this.options.chord.trim()}`;
    return this.report(
      'nail',
      'quick.nail',
      `the nail is not between the ends of the chord. Use a station between ${ends}.`,
    );
  }

  readWord<W extends string>(
    option: 'curve' | 'units' | 'ends',
    words: readonly W[],
    typed = this.options[option],
  ): W | undefined {
    if (typed === undefined) return undefined;
    const word = words.find((each) => each === typed.trim());
    const cure = option === 'units' ? suggestUnit(typed) : didYouMean(typed, words);
    return (
      word ?? this.report(option, 'quick.unknown-word', `${quoted(typed)} is not one of the choices. ${cure}`)
    );
  }

  /** One word for both ends, or two with a comma; free where nothing is typed. */
  readEnds(words: readonly ['free' | 'natural', 'held']): EndConditions | undefined {
    if (this.options.ends === undefined) return ['free', 'free'];
    const typed = this.options.ends.split(',');
    if (typed.length > 2)
      return this.report(
        'ends',
        'quick.ends',
        `a curve has two ends, not ${typed.length}. Write held, or held,${words[0]}.`,
      );
    const [start, end] = typed.map((each) => this.readWord('ends', words, each));
    const kept = (word: string): EndCondition => (word === 'held' ? 'held' : 'free');
    if (start === undefined || (typed.length === 2 && end === undefined)) return undefined;
    return [kept(start), kept(end ?? start)];
  }

  /** The thickness of the batten at both ends; undefined for a batten without a taper. */
  readTaper(unit: Unit): Taper | undefined {
    const typed = this.options.strip?.split(/\s+to\s+/);
    if (!typed) return undefined;
    if (typed.length !== 2)
      return this.report(
        'strip',
        'quick.strip',
        'a taper needs two thicknesses. Write --strip "1/4 to 1/8".',
      );
    const [from, to] = typed.map((each) => this.attempt('strip', () => parseLength(each, unit, 'positive')));
    return from === undefined || to === undefined ? undefined : { from, to };
  }

  throwIfAny(): void {
    throwFaults(this.faults);
  }
}
