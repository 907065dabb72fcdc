/** Digits and capitals without the look-alikes 0, O, 1 and I: 32 of them, five bits each. */
const LETTERS = '23456789ABCDEFGHJKLMNPQRSTUVWXYZ';
const CODE_LENGTH = 6;

/** 32-bit FNV-1a: offset basis and prime of the authors' draft (Fowler, Noll, Vo). */
const FNV_BASIS = 0x811c9dc5;
const FNV_PRIME = 0x01000193;

/**
 * Rounded to a micrometer, as the last bits of a sine differ between machines; shifted by a share that no 128th of an
 * inch and no decimal of a millimeter comes near, since 1/16 in is 1.5875 mm, halfway between two steps.
 */
const STEP_MM = 1e-3;
const SHIFT = 0.27;

/** Keeps sheets of two versions of a pattern apart. Two different values share a code once in 2³⁰. */
export function patternCode(value: unknown): string {
  const text = JSON.stringify(value, (_, part) =>
    typeof part === 'number' ? Math.round(part / STEP_MM + SHIFT) : part,
  );
  let hash = FNV_BASIS;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), FNV_PRIME) >>> 0;
  const folded = (hash >>> (5 * CODE_LENGTH)) ^ hash;
  return Array.from({ length: CODE_LENGTH }, (_, i) => LETTERS[(folded >>> (5 * i)) & 31]).join('');
}
