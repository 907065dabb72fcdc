import { expect, test } from 'vitest';
import type { Part } from '../../../src/part/part.ts';
import { adviseSawing } from '../../../src/shop/saw/advise-sawing.ts';
import { COMMON_SAWS, planEndCut } from '../../../src/shop/saw/saw-depth.ts';
import type { StripOptions } from '../../../src/shop/strip/strip-advice.ts';
import { adviseStrip } from '../../../src/shop/strip/strip-advice.ts';
import { findSpecies } from '../../../src/shop/wood/find-species.ts';
import { cutOrder } from '../../../src/shop/words/cut-order.ts';
import { describeBlade } from '../../../src/shop/words/describe-blade.ts';
import { describeEnd } from '../../../src/shop/words/describe-ends.ts';
import { describeNails, describeStrip, stripCautions } from '../../../src/shop/words/describe-strip.ts';
import { lengthFormat } from '../../../src/units/graduation.ts';
import { defaultRule } from '../../../src/units/rule.ts';
import { partOf } from '../../part/jobs.ts';
import { shallowLine } from '../lines.ts';

const rail = (edges: string, more = ''): Part => partOf(`part: Rail\nunits: in\n${more}edges:\n${edges}`);
const shouldered = (right: string): Part =>
  rail(
    `  lower: [{from: [0, 0]}, {line: [14, 0]}]\n  top: [{from: [0, 3]}, {line: [1, 3]}, {line: [1, 4]}, ${right}]\n`,
  );

const SAWN: Readonly<Record<string, Part>> = {
  'a straight bar': rail('  a: [{from: [0, 0]}, {line: [30, 0]}]\n'),
  'three equal hollows': rail(
    '  lower: [{from: [0, 0]}, {line: [2, 0]}, {arc: [4, 0], radius: 2}, {line: [8, 0]}, {arc: [10, 0], radius: 2}, {line: [12, 0]}]\n' +
      '  upper: [{from: [0, 4]}, {line: [5, 4]}, {arc: [7, 4], radius: -2}, {line: [12, 4]}]\n',
  ),
  'a gentle hollow': rail(
    '  lower: [{from: [0, 0]}, {arc: [24, 0], rise: 2}]\n  upper: [{from: [0, 5]}, {line: [24, 5]}]\n',
  ),
  'a notch': rail('  a: [{from: [0, 1]}, {line: [5, 2]}, {line: [10, 1]}, {line: [15, 2]}]\n'),
  'a bend that no blade turns': rail(
    '  top: [{from: [0, 6]}, {line: [10, 6]}]\n  belly: [{from: [0, 3]}, {line: [5, 3]}, {ellipse: [8, 5], rise: 1/2}, {line: [10, 5]}]\n',
  ),
  'one shoulder': shouldered('{line: [14, 4]}'),
  'two shoulders': shouldered('{line: [13, 4]}, {line: [13, 3]}, {line: [14, 3]}'),
  'a mirrored pair in layers with a leaning end': rail(
    '  lower: [{from: [0, 0]}, {line: [30, 0]}]\n  back: [{from: [0, 4]}, {arc: [30, 4], rise: 3}]\nends: {left: {splay: 5}}\n',
    'quantity: 2\npair: mirrored\nstock: {species: white oak, thickness: 1 3/4, layers: 2}\n',
  ),
};

const ENDS = [
  ['3 1/2', '{right: {bevel: 12}}'],
  ['7', '{right: {bevel: 12}}'],
  ['1', '{right: {miter: 61}}'],
  ['1', '{right: {miter: 6}}'],
  ['1 3/4', '{right: {rake: 14, splay: 10}}'],
  ['1 3/4', '{right: {rake: -14, splay: -10}}'],
] as const;

const oak: StripOptions = { species: findSpecies('white oak'), rule: defaultRule('mm') };
const line = shallowLine(1000, 50);
const STRIPS: Readonly<Record<string, readonly [typeof line, StripOptions]>> = {
  safe: [line, { ...oak, thickness: 6, nailDiameter: 3 }],
  'in inches': [line, { ...oak, rule: defaultRule('in') }],
  risky: [line, { ...oak, thickness: 16 }],
  'breaks and tips': [line, { ...oak, thickness: 30 }],
  'tighter than any strip': [shallowLine(120, 30), { ...oak, thickness: 3 }],
};

const block = (title: string, lines: readonly string[]): string => [`## ${title}`, ...lines].join('\n');

function sawingWords(title: string, part: Part): string {
  const sawing = adviseSawing(part, { width: 12.7 });
  const words = lengthFormat(part.rule);
  return block(title, [...describeBlade(sawing.blade, words), ...cutOrder(part, sawing, words)]);
}

function endWords(thickness: string, ends: string): string {
  const part = rail(
    `  lower: [{from: [0, 0]}, {line: [30, 0]}]\n  upper: [{from: [0, 4]}, {line: [30, 4]}]\nends: ${ends}\n`,
    `graduation: 1/16\nstock: {thickness: ${thickness}}\n`,
  );
  const cut = planEndCut(part.ends![1], part.stock?.thickness, COMMON_SAWS[0]);
  const rows = describeEnd(part, cut, adviseSawing(part), lengthFormat(part.rule));
  const words = rows.map((row) => `${row.label}: ${row.words}`);
  return block(`${thickness} in, ${ends}`, words);
}

function stripWords(title: string, [of, options]: readonly [typeof line, StripOptions]): string {
  const advice = adviseStrip(of, options);
  const { rule } = options;
  return block(`strip: ${title}`, [
    ...describeStrip(advice, lengthFormat(rule)),
    ...describeNails(advice, rule),
    ...stripCautions(advice, lengthFormat(rule)).map(({ message }) => message),
  ]);
}

test('advice on sawing, ends and strips keeps its reviewed words', async () => {
  const text = [
    ...Object.entries(SAWN).map(([title, part]) => sawingWords(title, part)),
    ...ENDS.map(([thickness, ends]) => endWords(thickness, ends)),
    ...Object.entries(STRIPS).map(([title, strip]) => stripWords(title, strip)),
  ].join('\n\n');
  await expect(`${text}\n`).toMatchFileSnapshot('../../words/shop-advice.txt');
});
