import { describe, expect, test } from 'vitest';
import {
  SAFETY_IDS,
  SIGNAL_WORDS,
  safetyNote,
  safetySections,
  safetyWords,
} from '../../../src/shop/words/safety.ts';
import { ALL_PAGES } from '../../docs/pages.ts';
import { textsOfCode, textsOfMarkup } from '../../house/plain-words.ts';
import { readSources } from '../../house/source.ts';

const HOME = 'src/shop/words/safety.ts';
const others = readSources('src').filter(({ path }) => path !== HOME);
const texts = [
  ...others.filter(({ path }) => path.endsWith('.ts')).flatMap(textsOfCode),
  ...others.filter(({ path }) => path.endsWith('.html')).flatMap(textsOfMarkup),
];
const document = readSources('docs').find(({ path }) => path === 'docs/safety.md')?.text ?? '';

/** Words that hardly any text has but one of safety. */
const OF_SAFETY =
  /\b(?:manuals?|eye protection|gloves|the guard|fingers|splinters|unplug|licensed|local codes)\b/i;

describe('the safety sentences', () => {
  test.each(SAFETY_IDS)('%s is in docs/safety.md under its signal word', (id) => {
    const { level } = safetyNote(id);
    const printed = safetyWords(id).replaceAll(/(?<=\d)"/g, '″');
    const bullets = document.replaceAll(/\n +/g, ' ');
    expect(bullets.replaceAll(/\s+/g, ' ')).toContain(printed);
    if (id !== 'general-first' && id !== 'general-strength')
      expect(bullets).toContain(`\n- **${SIGNAL_WORDS[level]}:** ${printed}\n`);
  });

  test('are written out nowhere else in the sources', () => {
    expect(texts.length).toBeGreaterThan(500);
    expect(texts.filter(({ text }) => OF_SAFETY.test(text))).toEqual([]);
    const sentences = SAFETY_IDS.flatMap((id) => safetyWords(id, 'in').split(/(?<=\.) /));
    for (const sentence of sentences) expect(texts.filter(({ text }) => text.includes(sentence))).toEqual([]);
  });

  test('are each used by at least one other source', () => {
    const used = others.map(({ text }) => text).join('\n');
    expect(SAFETY_IDS.filter((id) => !used.includes(`'${id}'`))).toEqual([]);
  });

  test('are quoted word for word by every other document', () => {
    const flat = (text: string): string => text.replaceAll(/\s+/g, ' ').replaceAll(/(?<=\d)"/g, '″');
    const notes = ALL_PAGES.filter(({ path }) => path !== 'docs/safety.md').flatMap(({ path, text }) =>
      [...text.matchAll(/\*\*(?:Warning|Caution)\.\*\* ((?:.+\n)+?)(?=\n|- |$)/g)].map(([, words = '']) => ({
        path,
        words,
      })),
    );
    expect(notes.length).toBeGreaterThan(8);
    const home = flat(document);
    const strange = notes.flatMap(({ path, words }) =>
      flat(words)
        .split(/(?<=\.) /)
        .filter((sentence) => sentence.trim() !== '' && !sentence.includes('safety.md'))
        .filter((sentence) => !home.includes(sentence.trim()))
        .map((sentence) => `${path}: ${sentence}`),
    );
    expect(strange).toEqual([]);
  });

  test('show the lengths of the maker’s unit, and both where it is not known', () => {
    expect(safetyWords('saw.guide', 'in')).toContain('within 1/2" of');
    expect(safetyWords('saw.guide', 'mm')).toContain('within 12 mm of');
    expect(safetyWords('saw.guide')).toContain('within 1/2" (12 mm) of');
  });

  test('stand under Warning before Caution, and a level without notes has no heading', () => {
    const [creep, manual] = [safetyNote('strip.creep'), safetyNote('saw.manual')];
    expect(safetySections([creep, manual])).toEqual([
      { title: 'Warning', messages: [manual.message] },
      { title: 'Caution', messages: [creep.message] },
    ]);
    expect(safetySections([creep])).toHaveLength(1);
    expect(safetySections([])).toEqual([]);
  });
});
