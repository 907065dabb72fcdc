import { expect, test } from 'vitest';
import { chooseStripSpecies, findSpecies } from '../../../src/shop/wood/find-species.ts';
import { SPECIES } from '../../../src/shop/wood/species.ts';
import { Fault } from '../../../src/units/fault.ts';

const faultOf = (name: string): Fault => {
  try {
    findSpecies(name);
  } catch (error) {
    if (error instanceof Fault) return error;
  }
  throw new Error(`${name} was found`);
};

test.each([
  ['White oak', 'White oak'],
  ['  WHITE   OAK ', 'White oak'],
  ['oak, white', 'White oak'],
  ['red oak', 'Northern red oak'],
  ['beech', 'American beech'],
  ['ash', 'White ash'],
  ['hard maple', 'Hard maple'],
  ['sugar maple', 'Hard maple'],
  ['Hard (sugar) maple', 'Hard maple'],
  ['red maple', 'Soft maple'],
  ['yellow poplar', 'Yellow-poplar'],
  ['poplar', 'Yellow-poplar'],
  ['Basswood, American', 'American basswood'],
  ['mahogany', 'Honduran mahogany'],
  ['douglas fir', 'Coast Douglas-fir'],
  ['western red cedar', 'Western redcedar'],
  ['southern pine, longleaf', 'Longleaf pine'],
])('%j is %s', (written, name) => {
  expect(findSpecies(written).name).toBe(name);
});

test('every wood answers to each of its names', () => {
  for (const species of SPECIES)
    for (const name of [species.name, ...species.alsoCalled]) expect(findSpecies(name)).toBe(species);
});

test.each([
  ['oak', ['White oak', 'Northern red oak']],
  ['maple', ['Hard maple', 'Soft maple']],
  ['Birch', ['Yellow birch', 'Sweet birch']],
  ['pine', ['Eastern white pine', 'Longleaf pine']],
  ['cedar', ['Western redcedar', 'Port-Orford cedar']],
])('the name %j is ambiguous', (written, woods) => {
  const { code, message } = faultOf(written);
  expect(code).toBe('species.ambiguous');
  for (const wood of woods) expect(message).toContain(wood);
});

test.each([
  ['wite oak', 'White oak'],
  ['yelow-poplar', 'Yellow-poplar'],
  ['beach', 'beech'],
  ['sitka sprice', 'Sitka spruce'],
])('the misspelled name %j suggests %j', (written, meant) => {
  const { code, message } = faultOf(written);
  expect(code).toBe('species.unknown');
  expect(message).toContain(`"${meant}"`);
});

test.each(['bamboo', '', '12', '  ', 'x'.repeat(100_000), 'European oak'])(
  'a wood without figures is refused: %.20j',
  (written) => {
    const { code, message } = faultOf(written);
    expect(code).toBe('species.unknown');
    if (!message.includes('Did you mean')) for (const { name } of SPECIES) expect(message).toContain(name);
    expect(message.length).toBeLessThan(700);
  },
);

test('chooseStripSpecies takes the wood asked for, or of the stock, or white ash', () => {
  expect(chooseStripSpecies('teak', 'white oak').name).toBe('Teak');
  expect(chooseStripSpecies(undefined, 'white oak').name).toBe('White oak');
  expect(chooseStripSpecies(undefined, 'birch plywood').name).toBe('White ash');
  expect(chooseStripSpecies(undefined, 'oak').name).toBe('White ash');
  expect(chooseStripSpecies(undefined, undefined).name).toBe('White ash');
  expect(() => chooseStripSpecies('plywood', 'white oak')).toThrow(Fault);
});
