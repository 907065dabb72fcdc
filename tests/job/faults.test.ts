import { describe, expect, test } from 'vitest';
import { faultsOf } from './faults-of.ts';

/** A sound job with one thing changed: text that stands in it, and what to write instead. */
const SOUND = `part: Bench apron
units: in
quantity: 2
stock:
  length: 46
  width: 5
edges:
  top:
    - from: [0, 4]
    - line: [44, 4]
  bottom:
    - from: [0, 0]
    - line: [6, 0]
    - batten: [38, 0]
      through: [[20, 1 1/4]]
    - arc: [42, 0]
      rise: 1/4
    - spline: [44, 0]
      through: [[43, 1/8]]
allowance:
  saw: 1/16
`;

const NAIL = 'through: [[20, 1 1/4]]';
const ARC = 'arc: [42, 0]\n      rise: 1/4';

const changed = (from: string, to: string): string => {
  expect(SOUND.split(from)).toHaveLength(2);
  return SOUND.replace(from, () => to);
};

test('the job used below has no fault', () => expect(faultsOf(SOUND)).toEqual([]));

describe('each mistake is one fault with its key, line and column', () => {
  test.each<[from: string, to: string, code: string, key: string | undefined, line: number, column: number]>([
    // missing and empty
    ['part: Bench apron\n', '', 'job.missing', 'part', 1, 1],
    ['units: in\n', '', 'job.missing', 'units', 1, 1],
    ['part: Bench apron', 'part:', 'job.empty', 'part', 1, 1],
    ['part: Bench apron', 'part: ""', 'job.empty', 'part', 1, 7],
    ['width: 5', 'width: # wide', 'job.empty', 'stock.width', 6, 3],
    ['      rise: 1/4\n', '', 'job.missing', 'edges.bottom[3]', 16, 7],
    ['      through: [[20, 1 1/4]]\n', '', 'job.missing', 'edges.bottom[2]', 14, 7],
    ['      through: [[43, 1/8]]\n', '', 'job.missing', 'edges.bottom[4].through', 18, 7],
    ['    - from: [0, 4]\n', '', 'job.missing', 'edges.top[0].from', 9, 7],
    ['    - line: [44, 4]\n', '', 'job.missing', 'edges.top', 8, 3],
    // wrong kinds
    ['width: 5', 'width: [5, 6]', 'job.wrong-kind', 'stock.width', 6, 10],
    ['part: Bench apron', 'part: {name: apron}', 'job.wrong-kind', 'part', 1, 7],
    ['  saw: 1/16', '  1/16', 'job.wrong-kind', 'allowance', 20, 1],
    ['line: [6, 0]', 'line: (6, 0)', 'job.wrong-kind', 'edges.bottom[1].line', 13, 13],
    ['line: [6, 0]', 'line: [6 0]', 'job.point', 'edges.bottom[1].line', 13, 13],
    ['line: [6, 0]', 'line: [6, 0, 1]', 'job.point', 'edges.bottom[1].line', 13, 13],
    ['line: [6, 0]', 'line 6', 'job.wrong-kind', 'edges.bottom[1]', 13, 7],
    ['quantity: 2', 'quantity: 0', 'job.count', 'quantity', 3, 11],
    ['quantity: 2', 'quantity: 1001', 'job.count', 'quantity', 3, 11],
    ['quantity: 2', 'quantity: 2.5', 'job.count', 'quantity', 3, 11],
    ['units: in', 'units: inch', 'job.unknown-word', 'units', 2, 8],
    ['part: Bench apron', `part: ${'a'.repeat(81)}`, 'job.text', 'part', 1, 7],
    ['part: Bench apron', 'part: "Bench\\tapron"', 'job.text', 'part', 1, 7],
    ['quantity: 2', `notes: ${'a'.repeat(2001)}`, 'job.text', 'notes', 3, 8],
    // names
    ['quantity: 2', 'quantaty: 2', 'job.unknown-key', 'quantaty', 3, 1],
    ['part: Bench', 'prat: Bench', 'job.unknown-key', 'prat', 1, 1],
    ['rise: 1/4', 'rize: 1/4', 'job.unknown-key', 'edges.bottom[3].rize', 17, 7],
    ['arc: [42, 0]', 'ark: [42, 0]', 'job.unknown-key', 'edges.bottom[3].ark', 16, 7],
    ['from: [0, 4]', 'form: [0, 4]', 'job.unknown-key', 'edges.top[0].form', 9, 7],
    ['quantity: 2', 'units: mm', 'job.duplicate-key', 'units', 3, 1],
    ['  bottom:', '  top:', 'job.duplicate-key', 'edges.top', 11, 3],
    ['  top:', '  top/upper:', 'job.edge-name', 'edges.top/upper', 8, 3],
    ['quantity: 2', 'quantity: 2\n: 3', 'job.bad-key', '', 4, 1],
    ['rise: 1/4', 'rise: 1/4\n      radius: 30', 'job.one-of', 'edges.bottom[3].radius', 18, 7],
    ['rise: 1/4', 'rise: 1/4\n      line: [42, 1]', 'job.one-of', 'edges.bottom[3].line', 18, 7],
    ['line: [6, 0]', 'from: [6, 0]', 'job.from', 'edges.bottom[1].from', 13, 7],
    ['allowance:\n  saw: 1/16', 'allowance: {}', 'job.empty', 'allowance', 20, 12],
    ['[[20, 1 1/4]]', '[]', 'job.empty', 'edges.bottom[2].through', 15, 16],
    ['allowance:', '  middle: []\nallowance:', 'job.too-many', 'edges.middle', 20, 3],
    // pairs, ends, joints
    ['quantity: 2', 'pair: mirorred', 'job.unknown-word', 'pair', 3, 7],
    ['quantity: 2', 'quantity: 3\npair: mirrored', 'job.odd-pair', 'quantity', 3, 11],
    ['quantity: 2', 'ends: square', 'job.wrong-kind', 'ends', 3, 7],
    ['quantity: 2', 'ends: {rihgt: square}', 'job.unknown-key', 'ends.rihgt', 3, 8],
    ['quantity: 2', 'ends: {right: skewed}', 'job.unknown-word', 'ends.right', 3, 15],
    ['quantity: 2', 'ends: {right: {miter: 6, splay: 4}}', 'job.one-of', 'ends.right', 3, 15],
    ['quantity: 2', 'ends: {right: {rake: 80}}', 'job.too-steep', 'ends.right.rake', 3, 22],
    ['quantity: 2', 'ends: {right: {rake: 6 in}}', 'angle.half-slope', 'ends.right.rake', 3, 22],
    ['quantity: 2', 'joints: []', 'job.empty', 'joints', 3, 9],
    ['quantity: 2', 'joints: [{hole: {at: 5, out: 1}}]', 'job.missing', 'joints[0].hole.diameter', 3, 17],
    ['quantity: 2', 'joints: [{hoel: {at: 5, out: 1}}]', 'job.unknown-key', 'joints[0].hoel', 3, 11],
    ['quantity: 2', 'joints: [{mark: {at: 5}}]', 'job.missing', 'joints[0].mark.label', 3, 17],
    [
      'quantity: 2',
      'joints: [{slot: {at: 9, out: 1, length: 1, width: 2}}]',
      'job.slot',
      'joints[0].slot.length',
      3,
      41,
    ],
    [
      'quantity: 2',
      'joints: [{hole: {at: 9, out: 1, diameter: 1, lean: 0}}]',
      'job.lean',
      'joints[0].hole.lean',
      3,
      52,
    ],
    [
      'quantity: 2',
      'joints: [{center-line: {at: 9, out: 1}}]',
      'job.one-of',
      'joints[0].center-line.out',
      3,
      32,
    ],
    // setting out
    ['rise: 1/4', 'rise: 0', 'job.zero', 'edges.bottom[3].rise', 17, 13],
    ['rise: 1/4', 'radius: 0', 'job.zero', 'edges.bottom[3].radius', 17, 15],
    ['batten: [38, 0]', 'batten: [5, 0]', 'job.backwards', 'edges.bottom[2].batten', 14, 15],
    ['line: [6, 0]', 'line: [-1, 1]', 'job.backwards', 'edges.bottom[1].line', 13, 13],
    ['line: [6, 0]', 'line: [0, 0]', 'job.same-point', 'edges.bottom[1].line', 13, 13],
    ['[[20, 1 1/4]]', '[5, 1]', 'job.backwards', 'edges.bottom[2].through', 15, 16],
    ['through: [[20, 1 1/4]]', 'apex: [39, 1]', 'job.backwards', 'edges.bottom[2].apex', 15, 13],
    ['[[20, 1 1/4]]', '[38, 0]', 'job.same-point', 'edges.bottom[2].through', 15, 16],
    ['[[43, 1/8]]', '[[43, 1], [42 1/2, 1]]', 'job.backwards', 'edges.bottom[4].through[1]', 19, 26],
    ['[[20, 1 1/4]]', '[[20, 1], [18, 1]]', 'job.backwards', 'edges.bottom[2].through[1]', 15, 26],
    ['[[20, 1 1/4]]', '[[20, 1], [20, 1]]', 'job.same-point', 'edges.bottom[2].through[1]', 15, 26],
    ['[[20, 1 1/4]]', '[[20, 1], 24]', 'job.wrong-kind', 'edges.bottom[2].through[1]', 15, 26],
    // how a batten is kept and planed
    [NAIL, `${NAIL}\n      apex: [22, 1]`, 'job.one-of', 'edges.bottom[2].apex', 16, 7],
    [NAIL, `apex: [22, 1]\n      through: [20, 1]`, 'job.one-of', 'edges.bottom[2].through', 16, 7],
    [NAIL, 'apex: [[22, 1]]', 'job.point', 'edges.bottom[2].apex', 15, 13],
    [NAIL, `${NAIL}\n      ends: hold`, 'job.unknown-word', 'edges.bottom[2].ends', 16, 13],
    [NAIL, `${NAIL}\n      ends: natural`, 'job.unknown-word', 'edges.bottom[2].ends', 16, 13],
    [NAIL, `${NAIL}\n      ends: [free, heald]`, 'job.unknown-word', 'edges.bottom[2].ends[1]', 16, 20],
    [NAIL, `${NAIL}\n      ends: [free, held, free]`, 'job.pair', 'edges.bottom[2].ends', 16, 13],
    [NAIL, `${NAIL}\n      ends: [held]`, 'job.pair', 'edges.bottom[2].ends', 16, 13],
    [NAIL, `${NAIL}\n      ends: []`, 'job.empty', 'edges.bottom[2].ends', 16, 13],
    [NAIL, `${NAIL}\n      ends: {start: held}`, 'job.wrong-kind', 'edges.bottom[2].ends', 16, 13],
    [NAIL, `${NAIL}\n      end: held`, 'job.unknown-key', 'edges.bottom[2].end', 16, 7],
    [NAIL, `${NAIL}\n      strip: {from: 1/4}`, 'job.missing', 'edges.bottom[2].strip.to', 16, 14],
    [NAIL, `${NAIL}\n      strip: {to: 1/4}`, 'job.missing', 'edges.bottom[2].strip.from', 16, 14],
    [NAIL, `${NAIL}\n      strip: {from: 0, to: 1/4}`, 'length.zero', 'edges.bottom[2].strip.from', 16, 21],
    [
      NAIL,
      `${NAIL}\n      strip: {from: 1/4, to: -1/8}`,
      'length.negative',
      'edges.bottom[2].strip.to',
      16,
      30,
    ],
    [
      NAIL,
      `${NAIL}\n      strip: {form: 1/4, to: 1/8}`,
      'job.unknown-key',
      'edges.bottom[2].strip.form',
      16,
      15,
    ],
    [NAIL, `${NAIL}\n      strip: 1/4`, 'job.wrong-kind', 'edges.bottom[2].strip', 16, 14],
    [NAIL, `${NAIL}\n      strip: {}`, 'job.empty', 'edges.bottom[2].strip', 16, 14],
    ['rise: 1/4', 'rise: 1/4\n      ends: held', 'job.unknown-key', 'edges.bottom[3].ends', 18, 7],
    [
      'rise: 1/4',
      'rise: 1/4\n      strip: {from: 1, to: 1}',
      'job.unknown-key',
      'edges.bottom[3].strip',
      18,
      7,
    ],
    // bow and ellipse
    [ARC, 'bow: [42, 0]', 'job.missing', 'edges.bottom[3].rise', 16, 7],
    [ARC, 'ellipse: [42, 0]', 'job.missing', 'edges.bottom[3].rise', 16, 7],
    [ARC, 'bow: [42, 0]\n      rise: 0', 'job.zero', 'edges.bottom[3].rise', 17, 13],
    [ARC, 'ellipse: [42, 0]\n      rise: 0 mm', 'job.zero', 'edges.bottom[3].rise', 17, 13],
    [ARC, 'bow: [42, 0]\n      rise: high', 'length.not-a-number', 'edges.bottom[3].rise', 17, 13],
    [ARC, 'bow: [42, 0]\n      rize: 1', 'job.unknown-key', 'edges.bottom[3].rize', 17, 7],
    [
      ARC,
      'bow: [42, 0]\n      rise: 1\n      through: [40, 1]',
      'job.unknown-key',
      'edges.bottom[3].through',
      18,
      7,
    ],
    [ARC, 'ellipse: [38, 0]\n      rise: 1', 'job.same-point', 'edges.bottom[3].ellipse', 16, 16],
    [ARC, 'bow: [30, 0]\n      rise: 1', 'job.backwards', 'edges.bottom[3].bow', 16, 12],
    [ARC, 'elipse: [42, 0]\n      rise: 1', 'job.unknown-key', 'edges.bottom[3].elipse', 16, 7],
    // shorthand
    ['units: in', 'units: &u in', 'job.alias', undefined, 2, 11],
    ['units: in', 'units: *u', 'job.alias', undefined, 2, 8],
    ['quantity: 2', 'quantity: !!int 2', 'job.alias', undefined, 3, 17],
    ['quantity: 2', '<<: {quantity: 2}', 'job.alias', '', 3, 1],
    // layout
    ['  width: 5', '\twidth: 5', 'job.syntax', undefined, 6, 1],
    ['part: Bench apron', 'part: Bench: apron', 'job.syntax', undefined, 1, 7],
    ['part: Bench apron', 'part: "Bench apron', 'job.syntax', undefined, 1, 7],
    ['quantity: 2', 'quantity 2', 'job.syntax', undefined, 3, 1],
    ['line: [6, 0]', 'line: [6, 0', 'job.syntax', undefined, 14, 5],
    ['line: [6, 0]', 'line: [6, 0]]', 'job.syntax', undefined, 13, 19],
    ['  width: 5', '    width: 5', 'job.syntax', undefined, 5, 11],
    ['width: 5', 'width: "5" 1/2', 'job.syntax', undefined, 6, 14],
    ['quantity: 2', 'quantity: @2', 'job.syntax', undefined, 3, 11],
    ['allowance:', '---\nallowance:', 'job.two-documents', undefined, 20, 1],
    ['part: Bench', 'part: B\uFFFDnch', 'job.not-text', undefined, 1, 8],
    ['part: Bench', 'part: B\u0000nch', 'job.not-text', undefined, 1, 8],
  ])('%j -> %j: %s', (from, to, code, key, line, column) => {
    const found = faultsOf(changed(from, to));
    expect(found.map(({ message, ...rest }) => rest)).toEqual([{ code, key, line, column }]);
    // Two sentences: what is wrong, then what would be right.
    expect(found[0]?.message).toMatch(/^[^\n]+\. [^\n]+\.$/);
  });
});

test.each(['', '\n\n', '# only a remark\n', '---\n', '\uFEFF'])('an empty file is one fault: %j', (text) => {
  expect(faultsOf(text)).toMatchObject([{ code: 'job.empty', line: 1, column: 1 }]);
});

/** The words of messages that depend on what was typed, reviewed in one file. */
test('messages about names and units match the reviewed words', async () => {
  const words = (text: string): string =>
    faultsOf(text)
      .map(({ code, message }) => `${code}: ${message}`)
      .join('\n');
  const rail = (units: string, end = '[30, 0]'): string =>
    `part: Rail\nunits: ${units}\nedges:\n  a:\n    - from: [0, 0]\n    - line: ${end}\n`;
  const messages = [
    changed('rise: 1/4', 'rize: 1/4'),
    changed('rise: 1/4', 'rise: 1/4\n      camber: 2'),
    changed(NAIL, `${NAIL}\n      ends: hald`),
    changed(NAIL, `${NAIL}\n      strip: {from: 1/4, too: 1/8}`),
    ...['inch', 'Millimeters', 'cm', 'furlongs'].map((unit) => rail(unit)),
    rail('in', '[40,5, 0]'),
  ].map(words);
  await expect(`${messages.join('\n')}\n`).toMatchFileSnapshot('../words/job.txt');
});

test('a close name is suggested, a distant one is not', () => {
  const hasGuess = (text: string): boolean => faultsOf(text).some(({ message }) => message.includes('"'));
  expect(faultsOf(changed('rise: 1/4', 'rize: 1/4'))).toMatchObject([{ code: 'job.unknown-key' }]);
  expect(hasGuess(changed('rise: 1/4', 'rize: 1/4'))).toBe(true);
  expect(hasGuess(changed('rise: 1/4', 'rise: 1/4\n      camber: 2'))).toBe(false);
});

test('a strip with two mistakes gives two faults', () => {
  const text = changed(NAIL, `${NAIL}\n      ends: [hald, frei]\n      strip: {from: thick, to: 0}`);
  expect(faultsOf(text).map(({ key }) => key)).toEqual([
    'edges.bottom[2].ends[0]',
    'edges.bottom[2].ends[1]',
    'edges.bottom[2].strip.from',
    'edges.bottom[2].strip.to',
  ]);
});

test('all mistakes of a file are reported at once, in the order of the file', () => {
  const text = `prat: Bench apron
units: inch
quantity: none
pair: mirorred
stock:
  width: wide
  width: 5
edges:
  top:
    - from: [0, 4]
    - line: [0, 5]
    - arc: [30]
      rise: 0
    - bow: [44, 4]
      rise: 0
alowance:
  saw: 1/16
`;
  expect(faultsOf(text).map(({ line, column, key }) => `${line}:${column} ${key}`)).toEqual([
    '1:1 prat',
    '2:8 units',
    '3:11 quantity',
    '4:7 pair',
    '6:10 stock.width',
    '7:3 stock.width',
    '11:13 edges.top[1].line',
    '12:12 edges.top[2].arc',
    '13:13 edges.top[2].rise',
    '15:13 edges.top[3].rise',
    '16:1 alowance',
  ]);
});

test('tabs on several lines are each reported', () => {
  const text = 'part: A\nunits: in\nedges:\n\ta:\n\t\t- from: [0, 0]\n';
  expect(faultsOf(text).map(({ line }) => line)).toEqual([4, 5]);
});

test('a third edge is a fault at its name', () => {
  const text = changed('allowance:', '  third:\n    - from: [0, 0]\n    - line: [1, 0]\nallowance:');
  expect(faultsOf(text)).toMatchObject([{ code: 'job.too-many', key: 'edges.third', line: 20, column: 3 }]);
});
