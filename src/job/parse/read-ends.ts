import type { EndSetting, Job } from '../job.ts';
import { END_KEYS, ENDS_KEYS } from '../job-keys.ts';
import { omitUndefined, readAngle, readWord } from './read-values.ts';
import { YamlMapping } from './yaml-mapping.ts';
import type { YamlNode } from './yaml-node.ts';

/** A steeper cut runs along the part rather than across it: no saw is set up for it. */
export const MAX_END_ANGLE = (75 * Math.PI) / 180;

/** The last two are for a part with a parallel edge. */
const END_WORDS = ['square', 'square to curve', 'level'] as const;
const SAW_WORDS = ['miter', 'bevel'] as const;
const STANCE_WORDS = ['rake', 'splay'] as const;

const END_CURE =
  'Write square, saw angles such as {miter: 6, bevel: 4}, or leg angles such as {rake: 6, splay: 4}. ' +
  'With a parallel edge you can also write square to curve, or level.';

/** Undefined where a mistake is reported. */
export function readEnds(entry: YamlNode): NonNullable<Job['ends']> | undefined {
  const cure = `Write "left:" and "right:", each with its end. ${END_CURE}`;
  const table = YamlMapping.of(entry, cure, ENDS_KEYS);
  return table && omitUndefined({ left: table.read('left', readEnd), right: table.read('right', readEnd) });
}

function readEnd(entry: YamlNode): EndSetting | undefined {
  if (entry.isText()) {
    const word = readWord(entry, END_WORDS);
    return word && { by: word === 'square to curve' ? 'curve' : word };
  }
  const table = YamlMapping.of(entry, END_CURE, END_KEYS);
  if (!table) return undefined;
  const isGiven = (name: string): boolean => table.get(name) !== undefined;
  const [bySaw, byStance] = [SAW_WORDS.some(isGiven), STANCE_WORDS.some(isGiven)];
  if (bySaw && byStance)
    return entry.report(
      'job.one-of',
      'saw angles and leg angles are mixed here. Use miter and bevel, or rake and splay, not both.',
    );
  // A misspelt name is reported already.
  if (!bySaw && !byStance) return undefined;
  const [first, second] = (bySaw ? SAW_WORDS : STANCE_WORDS).map((name) => readEndAngle(table, name));
  if (first === undefined || second === undefined) return undefined;
  return bySaw ? { by: 'miter', miter: first, bevel: second } : { by: 'stance', rake: first, splay: second };
}

function readEndAngle(table: YamlMapping, name: string): number | undefined {
  const entry = table.get(name);
  const angle = entry ? readAngle(entry) : 0;
  if (angle === undefined || !entry || Math.abs(angle) <= MAX_END_ANGLE) return angle;
  const wording = `a ${name} over 75° would cut along the part, not across it. Use a smaller angle.`;
  return entry.report('job.too-steep', wording);
}
