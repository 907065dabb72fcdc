import { readWord } from '../parse/read-values.ts';
import type { YamlMapping } from '../parse/yaml-mapping.ts';
import type { YamlNode } from '../parse/yaml-node.ts';

/** An end over a nail, or tangent to the neighboring line. */
export type EndCondition = 'free' | 'held';
export type EndConditions = readonly [start: EndCondition, end: EndCondition];

/** The words for the ends of a curve: first the one for an end that nothing turns. */
type EndWords = readonly ['free' | 'natural', 'held'];

/** One word for both ends, or a pair; both free where nothing is written. */
export function readEnds(mapping: YamlMapping, words: EndWords): EndConditions | undefined {
  const node = mapping.get('ends');
  if (!node) return ['free', 'free'];
  const [free] = words;
  const [start, end] = node.pairOrBoth(`Write ${free} or held, or one for each end: [held, ${free}].`) ?? [];
  const first = start && readEnd(start, words);
  const second = start === end ? first : end && readEnd(end, words);
  return first && second && [first, second];
}

function readEnd(node: YamlNode, words: EndWords): EndCondition | undefined {
  const word = readWord(node, words);
  return word && (word === 'held' ? 'held' : 'free');
}
