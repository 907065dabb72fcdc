import type { Part } from '../../part/part.ts';
import { planPlies } from '../../shop/plies/plan-plies.ts';
import type { Sawing } from '../../shop/saw/advise-sawing.ts';
import type { WoodPlan } from '../../shop/stock/stock-plan.ts';
import type { RunsAdvice } from '../../shop/strip/part-strips.ts';
import { plySections } from './card-plies.ts';
import { cutOrderSection, sawSection } from './card-saw.ts';
import { stripSection } from './card-strip.ts';
import { woodSection } from './card-wood.ts';
import type { CardSection } from './fit-sections.ts';

export interface MakingPlans {
  readonly part: Part;
  readonly sawing: Sawing;
  readonly runs: RunsAdvice | undefined;
  readonly plan: WoodPlan;
}

/** What the part is made of, what is set for it, and every step; sawn from a board, or bent from plies. */
export interface MakingSections {
  readonly wood: CardSection;
  /** On a side of their own with the steps before them, and beside all else. */
  readonly settings: readonly CardSection[];
  readonly beside: readonly CardSection[];
  readonly order: CardSection;
}

/** Width in mm. */
export function makingSections({ part, sawing, runs, plan }: MakingPlans, width: number): MakingSections {
  if (part.laminate) {
    const { plies, form, resawing, gluing, order } = plySections(part, planPlies(part), width);
    const settings = [form, resawing, gluing];
    return { wood: plies, settings, beside: settings, order };
  }
  const [saw, strip] = [sawSection(part, sawing, width), stripSection(part, runs, width)];
  return {
    wood: woodSection(part, plan, width),
    settings: [saw, strip],
    beside: [strip, saw],
    order: cutOrderSection(part, sawing, width),
  };
}
