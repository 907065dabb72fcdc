import { describe, expect, test } from 'vitest';
import { offsetsBeside } from '../../src/part/offsets.ts';
import { planStock } from '../../src/shop/stock/stock-plan.ts';
import { adviseStrips } from '../../src/shop/strip/part-strips.ts';
import { chooseStripSpecies } from '../../src/shop/wood/find-species.ts';
import { readOnRule, showOnRule } from '../../src/units/rule.ts';
import { typesetMeasures } from '../../src/units/typeset.ts';
import { samplePart } from '../part/jobs.ts';

import { ALL, readCard, sampleCard } from './sample-cards.ts';

type OffsetList = readonly {
  readonly station: number;
  readonly side?: 'left' | 'right';
  readonly shown: string;
  readonly edges: readonly { readonly name: string; readonly offset: number; readonly shown: string }[];
}[];

const typeset = (shown: string): string => typesetMeasures(shown).replace(/^-/, '−');

describe('the figures of a card', () => {
  test.each(ALL)('%s: offsets are those of the part, as the rule shows them', async (name) => {
    const part = samplePart(name);
    const { lists } = sampleCard(name);
    const rows = lists.offsets as OffsetList;
    expect(rows.length).toBeGreaterThan(3);
    const onPaper = new Set((await readCard(name)).pages[0]!.words.map(({ text }) => text));
    for (const { station, side, shown, edges } of rows) {
      expect(shown).toBe(typeset(showOnRule(station, part.rule)));
      expect(onPaper).toContain(shown);
      for (const { name: edge, offset, shown: told } of edges) {
        const beside = offsetsBeside(part.edges.find((each) => each.name === edge)!, station);
        expect(offset).toBe(beside.at(side === 'right' ? -1 : 0)?.offset);
        expect(told).toBe(typeset(showOnRule(offset, part.rule)));
      }
    }
  });

  test.each(ALL)('%s: blank, strip and board feet are those that stock and batten tell', (name) => {
    const part = samplePart(name);
    const { lists } = sampleCard(name);
    const { blank, amount } = planStock(part, {});
    const about = (mm: number): string => typeset(readOnRule(mm, part.rule).text);
    const list = lists.cutList as { readonly rough: string; readonly boardFeet: string };
    if (part.shape.type === 'closed') {
      const sizes = [blank.length, blank.width, blank.thickness!].map(about);
      expect(list.rough).toBe(
        part.rule.unit === 'in'
          ? `${sizes.map((size) => `${size}″`).join(' × ')}`
          : `${sizes.join(' × ')} mm`,
      );
      expect(list.boardFeet).toBe(amount!.rough!.boardFeet.toFixed(1));
    }
    const runs = adviseStrips(part, {
      species: chooseStripSpecies(undefined, part.stock?.species),
      rule: part.rule,
    });
    const { others, thickness } = runs[0].advice;
    const size = others ? 'too tight' : about(thickness);
    expect((lists.strip as { size: string }).size).toContain(size);
  });

  test.each(ALL)('%s: grain over the caution band is told however full the card is', (name) => {
    const { grain } = planStock(samplePart(name), {});
    const { notes } = sampleCard(name).lists.cutList as { notes: readonly string[] };
    if (grain.worst.angle > (11 * Math.PI) / 180) expect(notes.join(' ')).toContain('Grain runout');
  });

  test('a leg’s diagonals join the corners that its slanting ends leave', () => {
    const part = samplePart('hall-bench/leg.yaml');
    const [left, right] = part.ends!;
    const measures = sampleCard('hall-bench/leg.yaml').lists.measures as { label: string; length: number }[];
    const { x, y } = { x: right.face[1].x - left.face[0].x, y: right.face[1].y - left.face[0].y };
    expect(measures.find(({ label }) => label === 'outer left to inner right')!.length).toBeCloseTo(
      Math.hypot(x, y),
      9,
    );
  });

  test('both ends of the leg are set to its miter and bevel', () => {
    // atan(tan 6° · cos 4°) = 5.985°: a tenth of a degree is as near as a saw is set.
    const [ends] = sampleCard('hall-bench/leg.yaml').lists.saw as { what: string; value: string }[];
    expect(ends).toMatchObject({ what: 'both ends', value: 'miter −4°, bevel −6°' });
  });
});
