import { describe, expect, test } from 'vitest';
import { PlacedFault } from '../../../src/job/job-faults.ts';
import {
  addPrinter,
  findPrinter,
  readPrinters,
  validatePrinterName,
} from '../../../src/tiling/paper/known-printers.ts';
import {
  pageStretch,
  parseNominal,
  parseScale,
  scalePercent,
} from '../../../src/tiling/paper/printer-scale.ts';
import { Fault, Faults } from '../../../src/units/fault.ts';

function faultsOf(work: () => unknown): readonly Fault[] {
  try {
    work();
  } catch (error) {
    if (error instanceof Faults) return error.list;
    if (error instanceof Fault) return [error];
    throw error;
  }
  return [];
}

describe('a printer’s scale', () => {
  test.each([
    ['199.4mm', 200, 0.997],
    ['199.4', 200, 0.997],
    ['20.06 cm', 200, 1.003],
    ['99.7%', 200, 0.997],
    ['100.3 %', 200, 1.003],
    ['7 1/2in', 190.5, 1],
    ['190mm', 200, 0.95],
    ['105%', 200, 1.05],
  ])('%s of %d mm is %d', (typed, nominal, scale) => {
    expect(parseScale(typed, nominal)).toBeCloseTo(scale, 12);
  });

  test.each([
    ['189mm', 'printer.scale'],
    ['105.1%', 'printer.scale'],
    ['0.997', 'printer.scale'],
    ['0%', 'printer.scale'],
    ['7.85in', undefined],
    ['99,7%', 'length.comma'],
    ['%', 'length.not-a-number'],
    ['NaN', 'length.not-a-number'],
    ['-200mm', 'length.negative'],
    ['1e3%', 'length.exponent'],
  ])('%s is %s', (typed, code) => {
    expect(faultsOf(() => parseScale(typed))[0]?.code).toBe(code);
  });

  test('a refused one is said with its share, and what to do', () => {
    const [fault] = faultsOf(() => parseScale('188.2mm'));
    expect(fault!.message).toMatch(
      /"188\.2mm" would be 94\.1% .*200 mm.*5%.*100% \("actual size"\).*--nominal/,
    );
  });

  test('belongs to the paper: a lying page has its height across the paper', () => {
    const scale = { across: 1.012, down: 0.993 };
    expect(pageStretch(scale, 'upright')).toEqual({ x: 1.012, y: 0.993 });
    expect(pageStretch(scale, 'lying')).toEqual({ x: 0.993, y: 1.012 });
  });

  test('lines under 100 mm tell no scale', () => {
    expect(faultsOf(() => parseNominal('99mm'))[0]?.code).toBe('printer.nominal');
    expect(parseNominal('7.5in')).toBeCloseTo(190.5, 12);
    expect(scalePercent(0.997)).toBe('99.7%');
  });
});

describe('the list of printers', () => {
  const printer = { name: 'shop-laser', across: 0.997, down: 1.003 };

  test('keeps what is put into it, and says what it is', () => {
    const text = addPrinter('', printer);
    expect(text).toMatch(/^# .*printer/);
    expect(readPrinters(text)).toEqual([printer]);
    const more = addPrinter(text, { name: 'office inkjet', across: 1.0012345678, down: 1 });
    const read = readPrinters(more);
    expect(read.map(({ name }) => name)).toEqual(['shop-laser', 'office inkjet']);
    expect(read[1]!.across).toBeCloseTo(1.0012345678, 7);
  });

  test('a printer measured anew replaces itself, and the maker’s own remarks stay', () => {
    const text = `# mine\n${addPrinter('', printer)}# the old one\nattic:\n  across: 99 % # worn\n  down: 100 %\n`;
    const again = addPrinter(text, { ...printer, across: 1 });
    expect(readPrinters(again)).toEqual([
      { ...printer, across: 1 },
      { name: 'attic', across: 0.99, down: 1 },
    ]);
    for (const remark of ['# mine', '# the old one', '# worn']) expect(again).toContain(remark);
  });

  test.each(['', '\n', '# nothing yet\n\n'])('%j holds none', (text) => {
    expect(readPrinters(text)).toEqual([]);
  });

  test.each([
    ['a:\n  across: 99.7 %\n', 1, 'job.missing'],
    ['a:\n  across: 99.7 %\n  down: 50 %\n', 3, 'printer.scale'],
    ['a:\n  across: wide\n  down: 100 %\n', 2, 'length.not-a-number'],
    ['a:\n  across: 99.7 %\n  donw: 100 %\n', 3, 'job.unknown-key'],
    ['a: 99.7 %\n', 1, 'job.wrong-kind'],
    ['- a\n', 1, 'job.wrong-kind'],
    ['a:\n  across: [99.7 %\n', 3, 'job.syntax'],
    ['a:\n  across: 1 %\n b: 2\n', 3, 'job.syntax'],
    ['a/b:\n  across: 99.7 %\n  down: 99 %\n', 1, 'printer.name'],
    ['a:\n  across: 99 %\n  down: 99 %\na:\n  across: 99 %\n  down: 99 %\n', 4, 'job.duplicate-key'],
  ])('%j is told at line %d: %s', (text, line, code) => {
    const faults = faultsOf(() => readPrinters(text));
    expect(faults.map((fault) => fault.code)).toContain(code);
    const fault = faults.find((one) => one.code === code);
    expect(fault instanceof PlacedFault && fault.place.line).toBe(line);
  });

  test.each([
    'a:\n  across: 99 %\n  down: 99 %\n---\nb:\n  across: 99 %\n  down: 99 %\n',
    '\u0007',
    '#'.repeat(70_000).replace('#', 'a: '),
    '['.repeat(200),
    'a: [99 %\n',
  ])('a list of printers is not called a job: %#', (text) => {
    for (const { message } of faultsOf(() => readPrinters(text))) expect(message).not.toMatch(/job|point/);
  });

  test('a name not in it is answered with the nearest, and the list', () => {
    const [fault] = faultsOf(() => findPrinter('shop-lazer', [printer]));
    expect(fault!.message).toMatch(/"shop-lazer".*Did you mean "shop-laser"\?.*shop-laser/);
    expect(faultsOf(() => findPrinter('x', []))[0]!.message).toMatch(/printer sheet/);
    expect(findPrinter('shop-laser', [printer])).toEqual(printer);
  });

  test.each(['', ' ', '-x', 'a:b', 'x'.repeat(41), 'a\nb', '__proto__.'])('%j is no name', (name) => {
    expect(faultsOf(() => validatePrinterName(name))[0]?.code).toBe('printer.name');
  });

  test.each(['shop-laser', 'office inkjet', 'Büro 2', 'x'])('%j is a name', (name) => {
    expect(() => validatePrinterName(name)).not.toThrow();
  });
});
