import type { Point } from '../../curves/geometry/point.ts';

export type Tag = readonly [code: number, value: string];

/** Text, a whole number or a handle. */
export const tag = (code: number, value: string | number): Tag => [code, String(value)];

/** A nanometre or less; a bulge takes more, for it is multiplied by half the length of its chord. */
const MM_DECIMALS = 6;
const INCH_DECIMALS = 8;
const RATIO_DECIMALS = 12;

/** A plain decimal, never an exponent, with a point: some readers take a number without one for a whole one. */
function decimal(value: number, decimals: number): string {
  if (!(Math.abs(value) < 1e9)) throw new Error(`a drawing holds ${value}`);
  const [whole, part = ''] = value.toFixed(decimals).split('.');
  const kept = part.replace(/0+$/, '') || '0';
  return Number(value.toFixed(decimals)) === 0 ? '0.0' : `${whole}.${kept}`;
}

/** A number without a unit. */
export const realTag = (code: number, value: number): Tag => [code, decimal(value, RATIO_DECIMALS)];

export class DxfLengths {
  private readonly decimals: number;

  constructor(private readonly mm: number) {
    this.decimals = mm === 1 ? MM_DECIMALS : INCH_DECIMALS;
  }

  text(value: number): string {
    return decimal(value / this.mm, this.decimals);
  }

  tag(code: number, value: number): Tag {
    return [code, this.text(value)];
  }

  point2d(code: number, { x, y }: Point): Tag[] {
    return [this.tag(code, x), this.tag(code + 10, y)];
  }

  point3d(code: number, place: Point): Tag[] {
    return [...this.point2d(code, place), this.tag(code + 20, 0)];
  }
}

/** Line ends as the oldest readers want them. */
export const formatTags = (tags: readonly Tag[]): string =>
  tags.map(([code, value]) => `${String(code).padStart(3)}\r\n${value}\r\n`).join('');

/** Plain letters; all else by its code, as every version reads it. The stroke of a fraction is a plain one. */
export const dxfText = (text: string): string =>
  text
    .replaceAll('⁄', '/')
    .replaceAll('″', '"')
    .replaceAll('−', '-')
    .replace(/[\r\n]+/g, ' ')
    .replace(/[^ -~]/gu, (letter) => {
      const code = letter.codePointAt(0) ?? 0;
      return code <= 0xffff ? `\\U+${code.toString(16).toUpperCase().padStart(4, '0')}` : '?';
    });
