import { normalizeText } from './normalize-text.ts';
import type { MakeTextFault } from './text-fault.ts';

/** The longest sensible entry has about 20 characters. */
const MAX_TEXT = 64;

/** Numbers and words in turn, beginning and ending with a number. */
export interface TypedPieces {
  readonly negative: boolean;
  /** `2' 4 1/2"` is ["2", "'", " 4 1/2", '"', ""]. */
  readonly pieces: readonly string[];
}

const WORDS = /([^\d.,/\s-]+)/;
const EXPONENT = /^([+-]?[\d.]+e[+-]?\d+)(.*)$/;

/**
 * @param example what a right entry looks like, for the message
 * @throws Fault `….empty`, `….too-long`, `….not-a-number`, `….comma`, `….exponent`
 */
export function splitTyped(text: string, example: string, complain: MakeTextFault): TypedPieces {
  if (text.length > MAX_TEXT) {
    throw complain('too-long', `has more than ${MAX_TEXT} characters`, `Write one value, such as ${example}`);
  }
  const plain = normalizeText(text);
  if (plain === '') throw complain('empty', 'is empty', `Write a value, such as ${example}`);
  if (!/\d/.test(plain)) throw complain('not-a-number', 'has no number', `Write one, such as ${example}`);
  assertNoComma(plain, complain);
  assertNoExponent(plain, complain);
  return { negative: plain.startsWith('-'), pieces: plain.replace(/^[+-] ?/, '').split(WORDS) };
}

function assertNoComma(plain: string, complain: MakeTextFault): void {
  if (!plain.includes(',')) return;
  const pointed = plain.replace(',', '.');
  if (/^[+-]?[1-9]\d{0,2}(,\d{3})+(?!\d)/.test(plain)) {
    const joined = plain.replaceAll(',', '');
    const cure = /[.,].*[.,]/.test(plain) ? joined : `${joined} or ${pointed}`;
    throw complain('comma', 'has a comma, which may be a decimal sign or part thousands', `Write ${cure}`);
  }
  const cure = /^[+-]?\d+,\d+(?![\d,.])/.test(plain)
    ? pointed
    : 'one number with a decimal point, such as 12.5';
  throw complain('comma', 'has a comma', `Write ${cure}`);
}

function assertNoExponent(plain: string, complain: MakeTextFault): void {
  const [, number = '', rest = ''] = EXPONENT.exec(plain) ?? [];
  if (number === '') return;
  const inFull = String(Number(number));
  const cure = /^-?[\d.]+$/.test(inFull) ? `${inFull}${rest}` : 'the number out in full, such as 1000';
  throw complain('exponent', 'has an exponent', `Write ${cure}`);
}
