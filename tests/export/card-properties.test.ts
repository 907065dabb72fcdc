import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Part } from '../../src/part/part.ts';
import { Fault, Faults } from '../../src/units/fault.ts';
import { partOf } from '../part/jobs.ts';
import { faultsOf } from './card-faults.ts';

/** Any job of a workshop's size that a maker might write: one edge or two, arcs and splines, ends, joints, stock. */
const anyJob = fc
  .record({
    length: fc.integer({ min: 40, max: 3000 }),
    rise: fc.integer({ min: -20, max: 20 }),
    width: fc.integer({ min: 10, max: 90 }),
    kind: fc.constantFrom('arc', 'spline', 'line'),
    closed: fc.boolean(),
    stock: fc.constantFrom('', 'stock: {thickness: 22}', 'stock: {species: ash, thickness: 45, layers: 3}'),
    lean: fc.integer({ min: -8, max: 8 }),
    holes: fc.integer({ min: 0, max: 6 }),
    unit: fc.constantFrom('mm', 'in'),
    notes: fc.constantFrom('', 'notes: Keep the marked face up.'),
  })
  .map(({ length: l, rise, width, kind, closed, stock, lean, holes, unit, notes }) => {
    const mm = (size: number): string => `${size} mm`;
    const high = mm(l * (width / 300));
    const out = mm(l * (rise / 100));
    const through = `[${mm(l / 2)}, ${mm(l * (width / 300 + rise / 150))}]`;
    const bent = (to: string): string =>
      ({
        arc: `- arc: [${mm(l)}, ${to}]\n      rise: ${rise === 0 ? mm(l / 50) : out}`,
        spline: `- spline: [${mm(l)}, ${to}]\n      through: [${through}]`,
        line: `- line: [${mm(l)}, ${to}]`,
      })[kind];
    const bottom = `  under:\n    - from: [0, ${mm(-l / 3)}]\n    - line: [${mm(l)}, ${mm(-l / 3)}]\n`;
    const joints = Array.from(
      { length: closed ? holes : 0 },
      (_, i) =>
        `  - hole: {at: ${mm((l * (i + 2)) / (holes + 4))}, out: ${mm(-l / 4)}, diameter: ${mm(l / 60)}}`,
    );
    return [
      `part: Trial\nunits: ${unit}`,
      stock,
      `edges:\n${closed ? bottom : ''}  over:\n    - from: [0, ${high}]\n    ${bent(high)}`,
      closed ? `ends:\n  right: {miter: ${lean}}` : '',
      joints.length > 0 ? `joints:\n${joints.join('\n')}` : '',
      notes,
    ]
      .filter((line) => line !== '')
      .join('\n');
  });

/** The part of a job; undefined where it has faults (edges that cross, a joint outside): those have no card. */
function partIfAny(text: string): Part | undefined {
  try {
    return partOf(text);
  } catch (error) {
    if (error instanceof Faults || error instanceof Fault) return undefined;
    throw error;
  }
}

test('property: whatever the job, its card has nothing over anything else', () => {
  let made = 0;
  fc.assert(
    fc.property(anyJob, fc.constantFrom('letter', 'a4', 'a3'), (text, paper) => {
      const part = partIfAny(text);
      if (!part) return;
      made++;
      expect(faultsOf(part, paper)).toEqual([]);
    }),
    { numRuns: 15 },
  );
  expect(made).toBeGreaterThan(7);
});
