import * as yaml from 'yaml';
import { catchFault, Fault } from '../../units/fault.ts';
import { quoted } from '../../units/quoted.ts';
import type { Diagnostics, SourcePosition } from '../job-faults.ts';

export type SourceText = { readonly lines: yaml.LineCounter; readonly findings: Diagnostics };

export type KeyValueNode = yaml.Pair<yaml.ParsedNode, yaml.ParsedNode | null>;

/** One value of the job file. Reading it gives `undefined` once a fault is reported: the rest is read all the same. */
export class YamlNode {
  readonly position: SourcePosition;

  /** @param namePosition place of the name before the colon; where a list item begins, if it has none */
  constructor(
    readonly source: SourceText,
    readonly key: string,
    private readonly node: yaml.ParsedNode | null,
    readonly namePosition: SourcePosition,
  ) {
    const begins = node ? positionAt(source, node.range[0]) : namePosition;
    this.position = begins.line === namePosition.line && !isBlank(node) ? begins : namePosition;
    source.findings.positions.set(key, this.position);
  }

  report(code: string, wording: string): undefined {
    return this.source.findings.report(new Fault(code, wording, this.key), this.position);
  }

  reportAtName(code: string, wording: string): undefined {
    return this.source.findings.report(new Fault(code, wording, this.key), this.namePosition);
  }

  reportMissing(name: string, cure: string): undefined {
    const key = this.key === '' ? name : `${this.key}.${name}`;
    return this.source.findings.report(new Fault('job.missing', `missing. ${cure}`, key), this.position);
  }

  attempt<T>(work: () => T): T | undefined {
    return catchFault(work, (fault) => this.source.findings.report(fault.at(this.key), this.position));
  }

  /** The text as typed, without quotes; never empty. `cure` says what belongs here. */
  text(cure: string): string | undefined {
    if (!yaml.isScalar(this.node)) return this.reportWrongKind(cure);
    const typed = sourceText(this.node).trim().normalize('NFC');
    return typed === '' ? this.report('job.empty', `the value is empty. ${cure}`) : typed;
  }

  /** The items of a list, each with its own key; at least one, at most `most`. */
  list(cure: string, most: number): YamlNode[] | undefined {
    if (!yaml.isSeq(this.node) || this.node.items.length === 0) return this.reportWrongKind(cure);
    const nodes = this.node.items as (yaml.ParsedNode | null)[];
    if (nodes.length > most)
      return this.report('job.too-many', `this list has ${nodes.length} items. Use ${most} or fewer.`);
    return nodes.map((node, i) => {
      const begins = node ? positionAt(this.source, node.range[0]) : this.position;
      return new YamlNode(this.source, `${this.key}[${i}]`, node, begins);
    });
  }

  isText(): boolean {
    return yaml.isScalar(this.node) && !isEmptyValue(this.node);
  }

  /** Whether this is several points rather than one. */
  holdsLists(): boolean {
    return yaml.isSeq(this.node) && this.node.items.some(yaml.isSeq);
  }

  /** A value for each of two ends: a list of two, or one value for both. */
  pairOrBoth(cure: string): readonly [YamlNode, YamlNode] | undefined {
    if (!yaml.isSeq(this.node)) return [this, this];
    const items = this.list(cure, Number.POSITIVE_INFINITY);
    if (!items) return undefined;
    const [first, second, ...more] = items;
    if (first && second && more.length === 0) return [first, second];
    return this.report('job.pair', `this key needs one value or two. ${cure}`);
  }

  hasKey(name: string): boolean {
    return yaml.isMap(this.node) && this.node.has(name);
  }

  pairs(cure: string): KeyValueNode[] | undefined {
    if (!yaml.isMap(this.node) || this.node.items.length === 0) return this.reportWrongKind(cure);
    return this.node.items as KeyValueNode[];
  }

  private reportWrongKind(cure: string): undefined {
    // rejectShorthand reports an alias.
    if (yaml.isAlias(this.node)) return undefined;
    if (isEmptyValue(this.node)) return this.report('job.empty', `the value is empty. ${cure}`);
    return this.report('job.wrong-kind', `${describe(this.node)} is not allowed here. ${cure}`);
  }
}

/** The line and column (from 1) of a character offset in the source text. */
export function positionAt(source: SourceText, offset: number): SourcePosition {
  const { line, col } = source.lines.linePos(offset);
  return { line, column: col };
}

/** The characters of the file: "0x10" and "1e3" stay as they are. */
export const sourceText = (scalar: yaml.Scalar): string => scalar.source ?? String(scalar.value ?? '');

const isBlank = (node: yaml.ParsedNode | null): boolean =>
  node === null || (yaml.isScalar(node) && node.range[0] === node.range[1]);

const isEmptyValue = (node: yaml.ParsedNode | null): boolean =>
  isBlank(node) || (yaml.isCollection(node) && node.items.length === 0);

function describe(node: yaml.ParsedNode | null): string {
  if (yaml.isSeq(node)) return 'a list';
  if (yaml.isMap(node)) return 'a group of named values';
  return yaml.isScalar(node) ? quoted(sourceText(node)) : 'this';
}
