import { isAlias, isScalar, type ParsedNode } from 'yaml';
import { Fault } from '../../units/fault.ts';
import { quoted } from '../../units/quoted.ts';
import type { Vocabulary } from '../job-keys.ts';
import type { Place } from '../source-positions.ts';
import { nearName, suggest } from './did-you-mean.ts';
import { asTyped, Entry, type NamedNode, placeAt } from './yaml-node.ts';

/** A group of named values: `width: 4` and its neighbours. Every name stands in it once. */
export class Table {
  private readonly entries = new Map<string, Entry>();
  /** Names that a misspelt one was taken for: these are not missing, their mistake is known already. */
  private readonly misspelt = new Set<string>();

  private constructor(readonly entry: Entry) {}

  /** The table that an entry holds; `cure` says what belongs there if it holds none. */
  static of(entry: Entry, cure: string): Table | undefined {
    const pairs = entry.pairs(cure);
    if (!pairs) return undefined;
    const table = new Table(entry);
    for (const pair of pairs) table.add(pair);
    return table;
  }

  get names(): string[] {
    return [...this.entries.keys()];
  }

  get(name: string): Entry | undefined {
    return this.entries.get(name);
  }

  /** The value of a name that must stand here; `cure` says what to write if it does not. */
  require(name: string, cure: string): Entry | undefined {
    return this.lacks(name) ? this.entry.reportMissing(name, cure) : this.entries.get(name);
  }

  /** Whether a name does not stand here, not even misspelt. */
  lacks(name: string): boolean {
    return !this.entries.has(name) && !this.misspelt.has(name);
  }

  /** The one entry given of several that exclude each other. */
  exactlyOne(names: readonly string[], cure: string): { name: string; entry: Entry } | undefined {
    const [first, second] = this.names.filter((name) => names.includes(name));
    if (first === undefined) {
      if (!names.every((name) => this.lacks(name))) return undefined;
      return this.entry.report('job.missing', `something is missing. ${cure}`);
    }
    if (second === undefined) return { name: first, entry: this.entries.get(first)! };
    return this.entries
      .get(second)!
      .reportName('job.one-of', `${first} and ${second} exclude each other. Keep one of them.`);
  }

  /** Reports every name that the vocabulary does not hold. To be called before the values are asked for. */
  keepTo({ known }: Vocabulary): void {
    for (const [name, entry] of this.entries)
      if (!known.includes(name)) this.reportUnknown(entry, name, known);
  }

  private reportUnknown(entry: Entry, name: string, known: readonly string[]): void {
    // A name that stands here already is less likely to have been meant.
    const open = known.filter((each) => !this.entries.has(each));
    const meant = nearName(name, open) ?? nearName(name, known);
    if (meant !== undefined) this.misspelt.add(meant);
    entry.reportName('job.unknown-key', `unknown key. ${suggest(name, known, meant)}`);
  }

  private add({ key, value }: NamedNode): void {
    const { source } = this.entry;
    const place = key ? placeAt(source, key.range[0]) : this.entry.place;
    const name = this.nameOf(key, place);
    if (name === undefined) return;
    const path = this.entry.key === '' ? printable(name) : `${this.entry.key}.${printable(name)}`;
    const earlier = this.entries.get(name);
    if (earlier) {
      const wording = `written twice, first on line ${earlier.name.line}. Keep one of the two.`;
      source.findings.report(new Fault('job.duplicate-key', wording, path), place);
    } else {
      this.entries.set(name, new Entry(source, path, value, place));
    }
  }

  private nameOf(key: ParsedNode | null, place: Place): string | undefined {
    if (isAlias(key)) return undefined;
    const name = isScalar(key) ? asTyped(key) : '';
    if (name !== '' && name !== '<<') return name;
    const fault =
      name === '<<'
        ? new Fault('job.alias', '"<<" merges in values from elsewhere. Write the values out here.')
        : new Fault('job.bad-key', 'a name is missing before the colon. Write it as "name: value".');
    return this.entry.source.findings.report(fault.at(this.entry.key), place);
  }
}

/** A name as it may stand in a message: on one line, not too long, without control characters. */
const printable = (name: string): string => quoted(name).slice(1, -1);
