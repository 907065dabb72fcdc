import { type Point, point } from '../curves/geometry/point.ts';
import { firstOf, itemAt, lastOf } from '../units/checked.ts';
import type { Deviation } from './check-edge.ts';
import { fitModel, type Model } from './fit/fit-model.ts';
import { type Misfit, maxAbs, misfitOf } from './fit/rigid-fit.ts';

/** The hand (`true`), a part off the rule alike (`shifted`) or unlike (`crooked`), or a wrong rise (`bent`). */
export interface Explanation {
  readonly kind: 'true' | 'shifted' | 'crooked' | 'bent';
  /** How much wood too much the middle has over the ends, mm. */
  readonly bend: number;
  /** How much readings still differ from this, the wrong ones left out, mm. */
  readonly left: Misfit;
  /** The wrong readings, with how far each is off what is explained, mm, positive where there is more wood. */
  readonly wrong: readonly { readonly station: number; readonly off: number }[];
}

type Shape = (u: number) => number;
const SHIFT: Shape = () => 1;
const TURN: Shape = (u) => u - 0.5;
/** A wrong rise, springback, or a strip of another bend: nearly a parabola, whatever the curve. */
const BEND: Shape = (u) => 4 * u * (1 - u);

const CAUSES: readonly (readonly [kind: Explanation['kind'], shapes: readonly Shape[]])[] = [
  ['true', []],
  ['shifted', [SHIFT]],
  ['crooked', [SHIFT, TURN]],
  ['bent', [BEND]],
  ['bent', [BEND, SHIFT]],
  ['bent', [BEND, SHIFT, TURN]],
];

/**
 * The cause of least cost, see fit-model.ts; one that moves no reading by half the limit, mm, explains nothing. All
 * move the part along its offsets, and so less square to the line where it climbs.
 */
export function explainDeviations(
  deviations: readonly Deviation[],
  sigma: number,
  limit: number,
): Explanation {
  const rising = deviations.toSorted((a, b) => a.station - b.station);
  const points = rising.map(({ station, deviation, proud, climb }) =>
    point(station, Math.sign(proud) * Math.abs(deviation) * Math.cos(climb)),
  );
  const climbs = new Map(points.map((p, i) => [p, itemAt(rising, i).climb]));
  const [from, to] = [firstOf(points).x, lastOf(points).x];
  const share = (station: number): number => (to > from ? (station - from) / (to - from) : 0);
  const explanations = CAUSES.flatMap(([kind, shapes]) => {
    const explained = (by: readonly number[], p: Point): number => {
      const moved = shapes.reduce((sum, shape, i) => sum + itemAt(by, i) * shape(share(p.x)), 0);
      return moved * Math.cos(climbs.get(p) ?? 0);
    };
    const residualsOf: Model['residuals'] = (by, all) => all.map((p) => p.y - explained(by, p));
    const dearer = shapes.length * Math.log(points.length);
    const model = { start: shapes.map(() => 0), cost: dearer, residuals: residualsOf };
    const fit = fitModel(model, points, sigma);
    if (!fit) return [];
    const { parameters, residuals, cost } = fit;
    const wrong = fit.wrong.map((p) => ({ station: p.x, off: p.y - explained(parameters, p) }));
    const bend = shapes[0] === BEND ? itemAt(parameters, 0) : 0;
    const moved = kind === 'bent' ? bend : maxAbs(points.map((p) => explained(parameters, p)));
    if (kind !== 'true' && Math.abs(moved) < limit / 2) return [];
    return [{ kind, bend, left: misfitOf(residuals), wrong, cost }];
  });
  return firstOf(explanations.toSorted((a, b) => a.cost - b.cost));
}
