import { FONT_TABLES, type FontSubset } from './font-tables.ts';
import { groupConsecutive } from './lists.ts';

/** A letter as it stands on paper. */
interface PrintedLetter {
  readonly letter: string;
  /** The file of the font that carries it. */
  readonly subset: FontSubset;
  /** Thousandths of the type size. */
  readonly width: number;
}

interface Replacement {
  readonly printed: readonly PrintedLetter[];
  /** Whether something of the letter is lost. */
  readonly lost: boolean;
}

const SUBSETS = Object.keys(FONT_TABLES) as FontSubset[];

/** Signs that no file carries, each followed by letters that say the same. */
const PLAIN_SIGNS: ReadonlyMap<string, string> = new Map(
  '≤<= ≥>= ≠=/= ≈~ ∼~ ≅~ →-> ←<- ↔<-> ⇒=> ⌀Ø ∅Ø ∑Σ ∏Π ∆Δ ∥|| ‖|| ∙· ⋅· ●• ▪• ■• □[] ☐[] ☑[x] ✓[x] ✔[x] ‐- ‑- ―—'
    .split(' ')
    .map(([sign = '', ...letters]) => [sign, letters.join('')]),
);
/** As wide as the letter itself may be: a picture shows it in its reader's font. */
const MISSING: PrintedLetter = { letter: '?', subset: 'latin', width: 1000 };
/** Every file has spaces: one is set with the letter before it, as marks are. */
const FOLLOWS = /[\p{M} \u00a0]/u;
const MARKS = /\p{M}+/gu;
/** Joiners, selectors and control characters have no look of their own. */
const UNSEEN = /\p{Default_Ignorable_Code_Point}|\p{Cc}/u;
/** In plain figures "10⁵" would be another number. */
const RAISED_OR_LOWERED = /[⁰-₟]/u;

const unpack = (table: string): ReadonlyMap<string, number> =>
  new Map(
    table.split(' ').flatMap((run) => {
      const [start = '', packed = ''] = run.split(':');
      const letterAt = (i: number): string => String.fromCodePoint(Number.parseInt(start, 16) + i);
      const widths = (packed.match(/../g) ?? []).map((width) => Number.parseInt(width, 36));
      return widths.map((width, i) => [letterAt(i), width] as const).filter(([, width]) => width >= 0);
    }),
  );

const unpacked = new Map<FontSubset, ReadonlyMap<string, number>>();

/** A table is unpacked when a letter is first looked for in its file. */
function inSubset(subset: FontSubset, letter: string): PrintedLetter | undefined {
  const widths = unpacked.get(subset) ?? unpack(FONT_TABLES[subset]);
  unpacked.set(subset, widths);
  const width = widths.get(letter);
  return width === undefined ? undefined : { letter, subset, width };
}

/** All letters of a text as the font has them; undefined where it lacks one. */
function allCarried(text = ''): readonly PrintedLetter[] | undefined {
  const printed: PrintedLetter[] = [];
  for (const letter of text) {
    const subset = SUBSETS.find((each) => inSubset(each, letter));
    const found = subset && inSubset(subset, letter);
    if (!found) return undefined;
    printed.push(found);
  }
  return text === '' ? undefined : printed;
}

function replace(letter: string): Replacement {
  if (UNSEEN.test(letter)) return { printed: allCarried(letter) ?? [], lost: false };
  const alike = RAISED_OR_LOWERED.test(letter) ? letter : letter.normalize('NFKC');
  const same = allCarried(letter) ?? allCarried(PLAIN_SIGNS.get(letter)) ?? allCarried(alike);
  const bare = letter.normalize('NFD').replaceAll(MARKS, '');
  return { printed: same ?? allCarried(bare) ?? [MISSING], lost: !same };
}

/** A mark that has not become one with its letter is set over it only by the file that carries both. */
function follow(mark: string, subset: FontSubset): Replacement {
  const own = inSubset(subset, mark);
  return { printed: own ? [own] : [], lost: !own && !UNSEEN.test(mark) };
}

const replacements = new Map<string, Replacement>();

/** Letter by letter; the only place that knows what the font carries and what stands for the rest. */
function forEachLetter(text: string, work: (found: Replacement, letter: string) => void): void {
  let before: FontSubset = 'latin';
  for (const letter of text.normalize('NFC')) {
    const known = replacements.get(letter);
    const follows = !known && FOLLOWS.test(letter);
    const found: Replacement = known ?? (follows ? follow(letter, before) : replace(letter));
    if (!follows) replacements.set(letter, found);
    before = found.printed.at(-1)?.subset ?? before;
    work(found, letter);
  }
}

export function printedLetters(text: string): PrintedLetter[] {
  const all: PrintedLetter[] = [];
  forEachLetter(text, ({ printed }) => all.push(...printed));
  return all;
}

const joined = (letters: readonly PrintedLetter[]): string => letters.map(({ letter }) => letter).join('');

/** Text as printed, in runs that one file of the font carries each. */
export const fontRuns = (text: string): (readonly [FontSubset, string])[] =>
  groupConsecutive(printedLetters(text), (each) => each.subset).map(([subset, run]) => [subset, joined(run)]);

/** Each letter of a text that is not printed as it is, and what stands for it. */
export function lostLetters(text: string): ReadonlyMap<string, string> {
  const all = new Map<string, string>();
  forEachLetter(text, ({ lost, printed }, letter) => lost && all.set(letter, joined(printed)));
  return all;
}
