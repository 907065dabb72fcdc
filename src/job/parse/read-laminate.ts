import type { Unit } from '../../units/unit.ts';
import type { Laminate } from '../job.ts';
import { LAMINATE_KEYS } from '../job-keys.ts';
import { omitUndefined, readCount, readOptionalLength, readWord } from './read-values.ts';
import { YamlMapping } from './yaml-mapping.ts';
import type { YamlNode } from './yaml-node.ts';

const CURE = 'Write how many plies there are, such as "plies: 7", or how thick each is, such as "ply: 1/8".';

/** Half a meter of veneers; more is a mistake. */
const MAX_PLIES = 1000;

/** Undefined where a mistake is reported. */
export function readLaminate(node: YamlNode, unit: Unit): Laminate | undefined {
  const mapping = YamlMapping.of(node, CURE, LAMINATE_KEYS);
  return (
    mapping &&
    omitUndefined({
      plies: mapping.read('plies', readPlies),
      ply: readOptionalLength(mapping, 'ply', unit),
      form: mapping.read('form', (entry) => readWord(entry, ['below', 'above'] as const)),
      springback: readOptionalLength(mapping, 'springback', unit, 'not-negative'),
    })
  );
}

function readPlies(entry: YamlNode): number | undefined {
  const plies = readCount(entry, MAX_PLIES);
  if (plies !== 1) return plies;
  return entry.report('lamination.plies', 'a single ply springs back straight. Use 2 or more.');
}
