import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { point } from '../../../src/curves/geometry/point.ts';
import { FIT_MM } from '../../../src/curves/geometry/tolerance.ts';
import { fullSize } from '../../../src/export/full-size/compose-full-size.ts';
import type { FullSize } from '../../../src/export/full-size/full-size.ts';
import { measureDrawnLines } from '../../../src/export/full-size/full-size-accuracy.ts';
import { writeDxf } from '../../../src/export/writers/dxf.ts';
import { partOf, SAMPLES, samplePart } from '../../part/jobs.ts';
import { apart, type DrawnLine, distancesFrom, meant, placesOn } from '../drawn-line.ts';
import { type ReadDxf, readDxf } from '../read-dxf.ts';

const MM = { unit: 'mm', splines: false } as const;
const SPLINES = { unit: 'mm', splines: true } as const;

const leg = samplePart('hall-bench-leg.yaml');
const read = (full: FullSize, options: Parameters<typeof writeDxf>[1] = MM): ReadDxf =>
  readDxf(writeDxf(full, options));
const scaled = (line: DrawnLine, k: number): DrawnLine =>
  line.map((at) => (u) => point(at(u).x * k, at(u).y * k));

describe('a DXF', () => {
  test('names its unit, mm or inches, and keeps to it', () => {
    const [mm, inch] = [read(fullSize(leg)), read(fullSize(leg), { unit: 'in', splines: false })];
    expect(mm.header).toMatchObject({ $INSUNITS: 4, $MEASUREMENT: 1 });
    expect(inch.header).toMatchObject({ $INSUNITS: 1, $MEASUREMENT: 0 });
    const exact = meant(leg.exact);
    const cut = (file: ReadDxf): DrawnLine => file.lines.find(({ layer }) => layer === 'cut')!.line;
    expect(apart(scaled(cut(inch), 25.4), exact, 4)).toBeLessThanOrEqual(FIT_MM);
  });

  test('of release 12 has nothing but lines and arcs, each outline one closed polyline', () => {
    const { types, lines } = read(fullSize(leg));
    expect(new Set(types)).toEqual(new Set(['LINE', 'POLYLINE', 'TEXT']));
    for (const layer of ['cut', 'saw']) {
      const outlines = lines.filter((line) => line.layer === layer);
      expect(outlines).toHaveLength(1);
      expect(outlines[0]!.closed).toBe(true);
    }
    expect(writeDxf(fullSize(leg), MM)).toContain('AC1009');
  });

  test('counts as many lines and arcs as the figures say', () => {
    const { lines } = fullSize(leg, { only: ['cut'] });
    const bulges = read(fullSize(leg, { only: ['cut'] })).lines.flatMap((line) => line.bulges);
    const figures = measureDrawnLines([{ line: lines[0]!, copies: [[1, 0, 0, 1, 0, 0]] }], 'arcs');
    expect(bulges.filter((bulge) => bulge === 0)).toHaveLength(figures.lines);
    expect(bulges.filter((bulge) => bulge !== 0)).toHaveLength(figures.arcs);
    expect(figures.worst).toBeLessThanOrEqual(FIT_MM);
  });

  test('names its layers and puts words on their own', () => {
    const { layers, texts } = read(fullSize(leg, { parallel: 4 }));
    expect([...layers].sort()).toEqual(['0', 'cut', 'marks', 'parallel', 'saw', 'text']);
    expect(texts.map(({ text }) => text)).toEqual(
      expect.arrayContaining(['Hall bench leg', 'nail 12, 3 1/4', expect.stringContaining('34"')]),
    );
    expect(new Set(texts.map(({ layer }) => layer))).toEqual(new Set(['text']));
  });

  test('lies in the part’s own frame: x the station, y the offset', () => {
    const [start] = read(fullSize(leg, { only: ['cut'] })).lines[0]!.ends;
    expect([start.x, start.y]).toEqual([0, 0]);
  });

  test('spells letters beyond the plain ones by their code', () => {
    const named = partOf(
      'part: Blätter ⅞ – №7\nunits: mm\nedges:\n  top:\n    - from: [0, 0]\n    - line: [100, 0]\n',
    );
    const text = writeDxf(fullSize(named), MM);
    expect(text).toContain('Bl\\U+00E4tter \\U+215E \\U+2013 \\U+21167');
    expect(text).toMatch(/^[\r\n\x20-\x7e]*$/);
  });
});

describe('splines', () => {
  test('are cubic, in release 2000, and follow the line ten times as close', () => {
    const file = read(fullSize(leg, { only: ['cut'] }), SPLINES);
    expect(file.types).toContain('SPLINE');
    const line = file.lines.flatMap((each) => each.line);
    expect(apart(line, meant(leg.exact), 5)).toBeLessThanOrEqual(FIT_MM / 10);
  });

  test.each(SAMPLES)('%s: run end to end with the rest, bit for bit, and close', (name) => {
    const part = samplePart(name);
    const { lines } = read(fullSize(part, { only: ['cut'] }), SPLINES);
    const ends = lines.map((line) => line.ends);
    ends.slice(1).forEach(([from], i) => {
      expect([from.x, from.y]).toEqual([ends[i]![1].x, ends[i]![1].y]);
    });
    if (part.edges.length === 1) return;
    expect([ends[0]![0].x, ends[0]![0].y]).toEqual([ends.at(-1)![1].x, ends.at(-1)![1].y]);
  });

  test('a line without cubics has none', () => {
    const box = partOf(
      'part: Box\nunits: mm\nedges:\n  under:\n    - from: [0, 0]\n    - line: [100, 0]\n  over:\n    - from: [0, 40]\n    - arc: [100, 40]\n      rise: 9\n',
    );
    expect(new Set(read(fullSize(box, { only: ['cut'] }), SPLINES).types)).toEqual(new Set(['LWPOLYLINE']));
  });
});

const arch = (chord: number, rise: number): string =>
  `part: Arch\nunits: mm\ngraduation: 0.5\nedges:\n  under:\n    - from: [0, 0]\n    - line: [${chord}, 0]\n  over:\n    - from: [0, ${chord}]\n    - arc: [${chord}, ${chord}]\n      rise: ${rise}\n`;

describe('extremes survive rounding', () => {
  test.each([
    ['a flat arc of 100 m radius', 1000, 1.25],
    ['a flatter one of 4 km', 1000, 0.03125],
    ['one of 400 km', 1000, 0.0003],
    ['a part 0.1 mm long', 0.1, 0.02],
    ['a part 20 m long', 20_000, 900],
    ['a half circle', 100, 50],
    ['more than a half circle', 100, 80],
  ])('%s', (_, chord, rise) => {
    const part = partOf(arch(chord, rise));
    const exact = meant(part.exact);
    for (const options of [MM, SPLINES, { unit: 'in', splines: false } as const]) {
      const { lines } = read(fullSize(part, { only: ['cut'] }), options);
      expect(lines).toHaveLength(1);
      expect(lines[0]!.closed).toBe(true);
      const line = scaled(lines[0]!.line, options.unit === 'in' ? 25.4 : 1);
      // An arc is written as it is: nothing is lost but last digits, and what the measure leaves of a long arc.
      expect(Math.max(...distancesFrom(exact, placesOn(line, 9)))).toBeLessThan(2e-6 + chord * 2e-9);
    }
  });

  test('property: numbers are plain decimals with a point', () => {
    const chord = fc.double({ min: 0.1, max: 20_000, noNaN: true });
    const share = fc.double({ min: 1e-4, max: 0.4, noNaN: true });
    fc.assert(
      fc.property(chord, share, fc.boolean(), (length, rise, splines) => {
        const text = writeDxf(fullSize(partOf(arch(plain(length), plain(rise * length)))), {
          unit: 'in',
          splines,
        });
        const groups = text.split('\r\n');
        for (let i = 0; i + 1 < groups.length; i += 2) {
          const code = Number(groups[i]);
          if (code >= 10 && code < 60) expect(groups[i + 1]).toMatch(/^-?\d+\.\d+$/);
        }
        expect(text).not.toMatch(/NaN|Infinity|undefined/);
      }),
      { numRuns: 20 },
    );
  });
});

const plain = (mm: number): number => Number(mm.toFixed(6));

// Another reader, strict about what the format asks for, where this computer has it. Nothing needs it.
const hasAudit = spawnSync('python3', ['-c', 'import ezdxf']).status === 0;

test.skipIf(!hasAudit)(
  `ezdxf finds nothing to mend${hasAudit ? '' : ' (skipped: not on this computer)'}`,
  () => {
    const folder = mkdtempSync(join(tmpdir(), 'fairlath-'));
    try {
      const files = SAMPLES.flatMap((name) =>
        [MM, SPLINES].map((options, i) => {
          const file = join(folder, `${name}-${i}.dxf`);
          writeFileSync(file, writeDxf(fullSize(samplePart(name), { parallel: 2 }), options));
          return file;
        }),
      );
      const script =
        'import sys, ezdxf\nfor f in sys.argv[1:]:\n a = ezdxf.readfile(f).audit()\n assert not a.errors and not a.fixes, f';
      const { status, stderr } = spawnSync('python3', ['-c', script, ...files], { encoding: 'utf8' });
      expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    } finally {
      rmSync(folder, { recursive: true });
    }
  },
);
