import { isAlias, isScalar, type ParsedNode } from 'yaml';
import { Fault } from '../../units/fault.ts';
import { quoted } from '../../units/quoted.ts';
import type { KeySet } from '../job-keys.ts';
import type { SourcePosition } from '../source-positions.ts';
import { closestName, didYouMean } from './did-you-mean.ts';
import { type KeyValueNode, positionAt, sourceText, YamlNode } from './yaml-node.ts';

/** A group of named values: `width: 4` and its neighbours. Every name stands in it once. */
export class YamlMapping {
  private readonly entries = new Map<string, YamlNode>();
  /** Names that a misspelt one was taken for: these are not missing, their mistake is known already. */
  private readonly misspelt = new Set<string>();

  private constructor(readonly entry: YamlNode) {}

  /** The table that an entry holds; `cure` says what belongs there if it holds none. */
  static of(entry: YamlNode, cure: string): YamlMapping | undefined {
    const pairs = entry.pairs(cure);
    if (!pairs) return undefined;
    const table = new YamlMapping(entry);
    for (const pair of pairs) table.add(pair);
    return table;
  }

  get names(): string[] {
    return [...this.entries.keys()];
  }

  get(name: string): YamlNode | undefined {
    return this.entries.get(name);
  }

  /** The value of a name that must stand here; `cure` says what to write if it does not. */
  require(name: string, cure: string): YamlNode | undefined {
    return this.isMissing(name) ? this.entry.reportMissing(name, cure) : this.entries.get(name);
  }

  /** Whether a name does not stand here, not even misspelt. */
  isMissing(name: string): boolean {
    return !this.entries.has(name) && !this.misspelt.has(name);
  }

  /** The one entry given of several that exclude each other. */
  exactlyOne(names: readonly string[], cure: string): { name: string; entry: YamlNode } | undefined {
    const [first, second] = this.names.filter((name) => names.includes(name));
    if (first === undefined) {
      if (!names.every((name) => this.isMissing(name))) return undefined;
      return this.entry.report('job.missing', `something is missing. ${cure}`);
    }
    if (second === undefined) return { name: first, entry: this.entries.get(first)! };
    return this.entries
      .get(second)!
      .reportAtName('job.one-of', `${first} and ${second} exclude each other. Keep one of them.`);
  }

  /** Reports every name that the vocabulary does not hold. To be called before the values are asked for. */
  rejectUnknownKeys({ known }: KeySet): void {
    for (const [name, entry] of this.entries)
      if (!known.includes(name)) this.reportUnknown(entry, name, known);
  }

  private reportUnknown(entry: YamlNode, name: string, known: readonly string[]): void {
    // A name that stands here already is less likely to have been meant.
    const open = known.filter((each) => !this.entries.has(each));
    const meant = closestName(name, open) ?? closestName(name, known);
    if (meant !== undefined) this.misspelt.add(meant);
    entry.reportAtName('job.unknown-key', `unknown key. ${didYouMean(name, known, meant)}`);
  }

  private add({ key, value }: KeyValueNode): void {
    const { source } = this.entry;
    const place = key ? positionAt(source, key.range[0]) : this.entry.position;
    const name = this.nameOf(key, place);
    if (name === undefined) return;
    const path = this.entry.key === '' ? printableName(name) : `${this.entry.key}.${printableName(name)}`;
    const earlier = this.entries.get(name);
    if (earlier) {
      const wording = `written twice, first on line ${earlier.namePosition.line}. Keep one of the two.`;
      source.findings.report(new Fault('job.duplicate-key', wording, path), place);
    } else {
      this.entries.set(name, new YamlNode(source, path, value, place));
    }
  }

  private nameOf(key: ParsedNode | null, place: SourcePosition): string | undefined {
    if (isAlias(key)) return undefined;
    const name = isScalar(key) ? sourceText(key) : '';
    if (name !== '' && name !== '<<') return name;
    const fault =
      name === '<<'
        ? new Fault('job.alias', '"<<" merges in values from elsewhere. Write the values out here.')
        : new Fault('job.bad-key', 'a name is missing before the colon. Write it as "name: value".');
    return this.entry.source.findings.report(fault.at(this.entry.key), place);
  }
}

/** A name as it may stand in a message: on one line, not too long, without control characters. */
const printableName = (name: string): string => quoted(name).slice(1, -1);
