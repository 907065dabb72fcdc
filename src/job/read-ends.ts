import type { Entry } from './entry.ts';
import type { EndSetting, Job, Side } from './job.ts';
import { given, readAngle, readWord } from './read-values.ts';
import { Table } from './table.ts';
import { END_KEYS, ENDS_KEYS } from './vocabulary.ts';

/** Steeper than this the cut runs along the part rather than across it: no saw is set up for it. */
const MOST_LEAN = (75 * Math.PI) / 180;

const AN_END =
  'Write square, {miter: 6, bevel: 4} as a saw is set, or {rake: 6, splay: 4} as a leg stands: degrees.';

/** The ends that the job speaks of; `undefined` if one could not be read. */
export function readEnds(entry: Entry): NonNullable<Job['ends']> | undefined {
  const table = Table.of(entry, 'Write "left:" and "right:", each with its end. '.concat(AN_END));
  if (!table) return undefined;
  table.keepTo(ENDS_KEYS);
  const read = (side: Side): EndSetting | undefined => {
    const end = table.get(side);
    return end && readEnd(end);
  };
  const ends = { left: read('left'), right: read('right') };
  const failed = (['left', 'right'] as const).some((side) => table.get(side) && !ends[side]);
  return failed ? undefined : given(ends);
}

function readEnd(entry: Entry): EndSetting | undefined {
  if (entry.isText()) return readWord(entry, ['square'] as const) && { by: 'square' };
  const table = Table.of(entry, AN_END);
  if (!table) return undefined;
  table.keepTo(END_KEYS);
  const given = END_KEYS.known.filter((name) => table.get(name));
  const [saw, stance] = [['miter', 'bevel'] as const, ['rake', 'splay'] as const];
  if (given.length === 0)
    return table.names.length > 0 ? undefined : entry.report('job.missing', `no angle is given. ${AN_END}`);
  if (
    given.some((name) => saw.includes(name as 'miter')) &&
    given.some((name) => stance.includes(name as 'rake'))
  )
    return entry.report(
      'job.one-of',
      'miter and bevel say the same as rake and splay in another way. Keep the saw’s angles or the stance.',
    );
  const angle = (name: string): number | undefined => readLean(table, name);
  if (given.some((name) => saw.includes(name as 'miter'))) {
    const [miter, bevel] = [angle('miter'), angle('bevel')];
    return miter === undefined || bevel === undefined ? undefined : { by: 'miter', miter, bevel };
  }
  const [rake, splay] = [angle('rake'), angle('splay')];
  return rake === undefined || splay === undefined ? undefined : { by: 'stance', rake, splay };
}

/** The angle of that name; 0 where none is written. */
function readLean(table: Table, name: string): number | undefined {
  const entry = table.get(name);
  const angle = entry ? readAngle(entry) : 0;
  if (angle === undefined || !entry || Math.abs(angle) <= MOST_LEAN) return angle;
  return entry.report(
    'job.too-steep',
    `a ${name} of more than 75 degrees runs along the part, not across it. Write a smaller one.`,
  );
}
