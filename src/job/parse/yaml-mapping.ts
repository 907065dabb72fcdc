import { isAlias, isScalar, type ParsedNode } from 'yaml';
import { Fault } from '../../units/fault.ts';
import { quoted } from '../../units/quoted.ts';
import type { SourcePosition } from '../job-faults.ts';
import { closestName, didYouMean } from './did-you-mean.ts';
import { type KeyValueNode, positionAt, sourceText, YamlNode } from './yaml-node.ts';

export type NamedNode<Name extends string = string> = { readonly name: Name; readonly node: YamlNode };

/** A group of named values: `width: 4` and its neighbors, each name once. */
export class YamlMapping {
  private readonly nodes = new Map<string, YamlNode>();
  /** Names that a misspelled one was taken for: they are not reported as missing too. */
  private readonly misspelt = new Set<string>();

  private constructor(readonly node: YamlNode) {}

  /** `cure` says what belongs there if the node holds no group. Names other than those `known` are reported. */
  static of(node: YamlNode, cure: string, known?: readonly string[]): YamlMapping | undefined {
    const pairs = node.pairs(cure);
    if (!pairs) return undefined;
    const mapping = new YamlMapping(node);
    for (const pair of pairs) mapping.add(pair);
    if (known) mapping.rejectUnknownKeys(known);
    return mapping;
  }

  get entries(): NamedNode[] {
    return [...this.nodes].map(([name, node]) => ({ name, node }));
  }

  get(name: string): YamlNode | undefined {
    return this.nodes.get(name);
  }

  /** What `read` makes of a value; `otherwise` where its name is not given. */
  read<T>(name: string, read: (node: YamlNode) => T | undefined, otherwise?: T): T | undefined {
    const node = this.nodes.get(name);
    return node ? read(node) : otherwise;
  }

  require(name: string, cure: string): YamlNode | undefined {
    return this.isMissing(name) ? this.node.reportMissing(name, cure) : this.nodes.get(name);
  }

  isMissing(name: string): boolean {
    return !this.nodes.has(name) && !this.misspelt.has(name);
  }

  /** The value of the one name that is given, where only one of several can be. */
  exactlyOne<Name extends string>(names: readonly Name[], cure: string): NamedNode<Name> | undefined {
    const [first, second] = this.entries.filter((entry): entry is NamedNode<Name> =>
      names.some((name) => name === entry.name),
    );
    if (!first) {
      if (!names.every((name) => this.isMissing(name))) return undefined;
      return this.node.report('job.missing', `a value is missing. ${cure}`);
    }
    if (!second) return first;
    const wording = `there is already a value for ${first.name}. Use ${first.name} or ${second.name}, not both.`;
    return second.node.reportAtName('job.one-of', wording);
  }

  /** Reports every name that is not known here. Call it before asking for values. */
  rejectUnknownKeys(known: readonly string[]): void {
    // A name that is given already is less likely to have been meant.
    const open = known.filter((each) => !this.nodes.has(each));
    for (const { name, node } of this.entries.filter((entry) => !known.includes(entry.name))) {
      const meant = closestName(name, open) ?? closestName(name, known);
      if (meant !== undefined) this.misspelt.add(meant);
      node.reportAtName('job.unknown-key', `unknown key. ${didYouMean(name, known, meant)}`);
    }
  }

  private add({ key, value }: KeyValueNode): void {
    const { source } = this.node;
    const place = key ? positionAt(source, key.range[0]) : this.node.position;
    const name = this.nameOf(key, place);
    if (name === undefined) return;
    const path = this.node.key === '' ? printableName(name) : `${this.node.key}.${printableName(name)}`;
    const earlier = this.nodes.get(name);
    if (earlier) {
      const wording = `this key is here twice, first on line ${earlier.namePosition.line}. Remove one of the two.`;
      source.findings.report(new Fault('job.duplicate-key', wording, path), place);
    } else {
      this.nodes.set(name, new YamlNode(source, path, value, place));
    }
  }

  private nameOf(key: ParsedNode | null, place: SourcePosition): string | undefined {
    if (isAlias(key)) return undefined;
    const name = isScalar(key) ? sourceText(key) : '';
    if (name !== '' && name !== '<<') return name;
    const fault =
      name === '<<'
        ? new Fault('job.alias', '"<<" takes values from another place. Write the values here.')
        : new Fault('job.bad-key', 'the name before the colon is missing. Write "name: value".');
    return this.node.source.findings.report(fault.at(this.node.key), place);
  }
}

const printableName = (name: string): string => quoted(name).slice(1, -1);
