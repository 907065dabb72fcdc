import { test } from './browser.ts';
import { compareAll } from './same.ts';

const JOB = `part: Łuk żółty, ножка, ξύλο, gỗ
units: mm
edges:
  dołem:
    - from: [0, 0]
    - line: [800, 0]
  góra:
    - from: [0, 100]
    - batten: [800, 100]
      apex: [400, 160]
stock: {length: 1000, width: 250, thickness: 30, species: whte oak}
joints:
  - hole: {at: 300, out: 50, diameter: 8, label: ⌀ 8 木}
notes: "≤ 3 → 5, é"
`;

test('the page and the commands print the same letters of other alphabets, and tell the same of lost ones', async ({
  openPage,
}) => {
  await compareAll(openPage, 'letters', JOB);
});
