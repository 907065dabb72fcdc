import { pointAt } from '../curves/along.ts';
import type { Landmark, Part, PartEdge } from '../part/part.ts';
import type { Rule } from '../units/rule.ts';
export function offsetAt(edge: PartEdge, station: number): number | undefined {
  for (const run of edge.runs)
    for (const s of run.path) {
      let best: number | undefined;
      let d = 2;
      for (let i = 0; i <= 200; i++) {
        const p = pointAt(s, i / 200);
        if (Math.abs(p.x - station) < d) {
          d = Math.abs(p.x - station);
          best = p.y;
        }
      }
      if (best !== undefined) return best;
    }
  return undefined;
}
export function mainStations(part: Part): number[] {
  const out: number[] = [];
  const step = part.rule.unit === 'in' ? 25.4 * 4 : 100;
  for (let s = 0; s <= part.bounds.right; s += step) out.push(s);
  return out;
}
export function landmarks(part: Part): Landmark[] {
  return part.edges.flatMap((e) =>
    e.runs
      .filter((r) => r.kind !== 'line')
      .map(
        (r): Landmark => ({
          what: 'apex',
          at: pointAt(r.path[Math.floor(r.path.length / 2)]!, 0.5),
          edge: e.name,
        }),
      ),
  );
}
export function shown(mm: number, rule: Rule): string {
  const { unit, graduation } = rule;
  if (unit === 'mm') return `${Math.round(mm * 10) / 10} mm`;
  const n = Math.round(((mm / 25.4) * graduation.denominator) / graduation.numerator) * graduation.numerator;
  const whole = Math.floor(Math.abs(n) / graduation.denominator);
  let num = Math.abs(n) - whole * graduation.denominator;
  let den = graduation.denominator;
  while (num && num % 2 === 0 && den % 2 === 0) {
    num /= 2;
    den /= 2;
  }
  const sign = n < 0 ? '−' : '';
  if (!num) return `${sign}${whole} in`;
  return `${sign}${whole ? `${whole} ` : ''}${num}⁄${den} in`;
}
