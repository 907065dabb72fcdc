import { Diagnostics, PlacedFault, type SourcePosition } from '../../job/job-faults.ts';
import { describeExcess } from '../../job/parse/read-yaml.ts';
import { firstOf, itemAt, lastOf } from '../../units/checked.ts';
import { catchFault, Fault } from '../../units/fault.ts';
import { parseLength } from '../../units/parse-length.ts';
import { quoted } from '../../units/quoted.ts';
import type { Unit } from '../../units/unit.ts';
import { type CsvCell, type CsvSeparator, detectSeparator, splitCsvLine } from './csv-line.ts';

export interface StationReading {
  readonly station: number;
  readonly offset: number;
  /** Absent for a reading of the command line. */
  readonly place?: SourcePosition;
}

/** A reading every 10 mm of a 10 m part. More are a log, not a measured part. */
export const MAX_READINGS = 1000;
/** Two lengths take 40 characters; the rest is room for a remark. */
export const MAX_LINE = 1000;
/** A file with more mistakes than this is the wrong file. */
export const MAX_FAULTS = 20;

/** Control characters, and what is left of text in another encoding. */
const NOT_TEXT = /[^\P{Cc}\t\r\n]|\uFFFD/u;

const EXAMPLE = '6, 1/2';

const BLANK_OR_REMARK = /^\s*(#|$)/;

/**
 * A station and an offset a line, after a comma, semicolon or tab; a decimal comma only where that is no comma. Of
 * column names "measured" counts before "offset", so that a printed table can be filled in.
 * @throws JobFaults every mistake with its line and column: `readings.…`, and those of a length
 */
export function readReadings(text: string, unit: Unit): StationReading[] {
  const findings = new Diagnostics();
  const long = describeExcess(text);
  const report = (code: string, wording: string): void =>
    findings.report(new Fault(code, wording), { line: 1, column: 1 });
  if (long !== undefined)
    report(
      'readings.too-big',
      `${long}, which is too long for readings. Write one station and offset per line: ${EXAMPLE}.`,
    );
  else if (NOT_TEXT.test(text))
    report('readings.not-text', 'this file is not plain text. Save it as a CSV file (UTF-8).');
  findings.throwIfAny();
  const readings = new ReadingsParser(unit, findings).read(text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/));
  findings.throwIfAny();
  return readings;
}

export function assertReadings(readings: readonly StationReading[]): void {
  if (readings.length === 0)
    throw new Fault('readings.none', 'the readings are missing. Measure at one station or more.');
  if (!readings.every(({ station, offset }) => Number.isFinite(station) && Number.isFinite(offset)))
    throw new Fault('readings.not-finite', 'a reading is not a finite number. Use plain lengths in mm.');
}

interface CsvColumn {
  readonly at: number;
  readonly unit: Unit;
}

interface CsvColumns {
  readonly station: CsvColumn;
  readonly offset: CsvColumn;
  /** A file that names its columns may have others beside these two. */
  readonly named: boolean;
}

class ReadingsParser {
  private columns: CsvColumns | undefined;
  private separator: CsvSeparator = ',';
  private line = 0;
  private faults = 0;

  constructor(
    private readonly unit: Unit,
    private readonly findings: Diagnostics,
  ) {}

  read(lines: readonly string[]): StationReading[] {
    const readings: StationReading[] = [];
    this.separator = detectSeparator(lines.filter((line) => !BLANK_OR_REMARK.test(line)));
    for (const text of lines) {
      if (this.faults >= MAX_FAULTS) return readings;
      this.line++;
      const reading = this.readLine(text);
      if (reading) readings.push(reading);
      if (readings.length <= MAX_READINGS) continue;
      this.report('too-many', `there are more than ${MAX_READINGS} readings. Keep one for each station.`);
      return readings;
    }
    this.line = 1;
    if (readings.length === 0 && this.faults === 0)
      this.report('none', `the readings are missing. Write one station and offset per line: ${EXAMPLE}.`);
    return readings;
  }

  private readLine(line: string): StationReading | undefined {
    if (line.length > MAX_LINE)
      return this.report(
        'long-line',
        `this line is longer than ${MAX_LINE} characters. Keep one reading per line.`,
      );
    if (BLANK_OR_REMARK.test(line)) return undefined;
    const cells = splitCsvLine(line, this.separator);
    if ('openQuote' in cells)
      return this.report('open-quote', 'this quote is not closed. Close it, or remove it.', cells.openQuote);
    // The single value is not read: otherwise each such line would give two mistakes.
    if (cells.length === 1 && !this.columns?.named) {
      const sign = { ',': 'comma', ';': 'semicolon', '\t': 'tab' }[this.separator];
      const cure = `Write both with a ${sign} between them, or start the line with # to skip it.`;
      return this.report('missing', `this line has one value and no ${sign}. ${cure}`, firstOf(cells).column);
    }
    if (!this.columns) {
      this.columns = this.columnsOf(cells);
      if (this.columns.named) return undefined;
    }
    return this.readCells(cells, this.columns);
  }

  private columnsOf(cells: readonly CsvCell[]): CsvColumns {
    const named = cells.length > 1 && cells.every(({ text }) => !/\d/.test(text));
    const plain = (at: number): CsvColumn => ({ at, unit: this.unit });
    if (!named) return { station: plain(0), offset: plain(1), named };
    const station = this.columnNamed(cells, 'stations?');
    const offset = this.columnNamed(cells, 'measured|readings?') ?? this.columnNamed(cells, 'offsets?');
    if (!station || !offset) {
      const missing = station ? 'offset' : 'station';
      const wording = `the column for the ${missing} is missing. Name two columns: station, offset.`;
      this.report('columns', wording, firstOf(cells).column);
    }
    return { station: station ?? plain(0), offset: offset ?? plain(1), named };
  }

  /** Accepts "station", "station_mm", "Station (in)". */
  private columnNamed(cells: readonly CsvCell[], names: string): CsvColumn | undefined {
    const form = new RegExp(`^(?:${names})(?:[\\s_,(\\[]+(in|mm|inch|inches)[)\\]]?)?$`);
    for (const [at, { text }] of cells.entries()) {
      const found = form.exec(text.toLowerCase());
      if (found) return { at, unit: found[1] === undefined ? this.unit : found[1] === 'mm' ? 'mm' : 'in' };
    }
    return undefined;
  }

  private readCells(cells: readonly CsvCell[], columns: CsvColumns): StationReading | undefined {
    const extra = columns.named ? undefined : cells.slice(2).find(({ text }) => text !== '');
    if (extra) {
      const wording = `${quoted(extra.text)} is one value too many. Write a station and an offset, such as ${EXAMPLE}.`;
      return this.report('cells', wording, extra.column);
    }
    const station = this.lengthIn(cells, columns.station, 'station');
    const offset = this.lengthIn(cells, columns.offset, 'offset');
    if (station === undefined || offset === undefined) return undefined;
    const { column } = itemAt(cells, columns.station.at);
    return { station, offset, place: { line: this.line, column } };
  }

  private lengthIn(cells: readonly CsvCell[], { at, unit }: CsvColumn, what: string): number | undefined {
    const { text, column } = cells[at] ?? { ...lastOf(cells), text: '' };
    const missing = `the ${what} is missing on this line. Write it, such as ${EXAMPLE}, or start the line with # to skip it.`;
    if (text === '') return this.report('missing', missing, column);
    return catchFault(
      () => parseLength(this.withPoint(text), unit),
      (fault) => this.reportAt(fault.at(what), column),
    );
  }

  /** A comma before one or two last digits is a decimal comma; 1,200 may be thousands. */
  private withPoint(text: string): string {
    return this.separator === ',' ? text : text.replace(/(?<=^-?\d+),(?=\d{1,2}(?!\d))/, '.');
  }

  private report(code: string, wording: string, column = 1): undefined {
    return this.reportAt(new Fault(`readings.${code}`, wording), column);
  }

  private reportAt(fault: Fault, column: number): undefined {
    this.faults++;
    return this.findings.report(fault, { line: this.line, column });
  }
}

/** Reads "6=1/2". @throws Fault `readings.cells` without the sign, and those of a length */
export function parseReading(typed: string, unit: Unit): StationReading {
  const [station, offset, ...more] = typed.split('=');
  if (station === undefined || offset === undefined || more.length > 0)
    throw new Fault(
      'readings.cells',
      `${quoted(typed)} is not a reading. Write station=offset, such as 6=1/2.`,
    );
  return { station: parseLength(station, unit), offset: parseLength(offset, unit) };
}

export const faultAtReading = ({ place }: StationReading, fault: Fault): Fault =>
  place ? new PlacedFault(fault, place) : fault.at('--reading');
