/** Rounds beside the few of `npm test`: `npm run fuzz` asks for many. */
export const ROUNDS = Number(process.env.FUZZ_ROUNDS ?? 1);
const SEED = Number(process.env.FC_SEED ?? 20_261_125);

/** Numbers from 0 to below 1, the same for the same seed on every machine (mulberry32, public domain). */
export class Random {
  private state: number;

  constructor(of: number) {
    this.state = (SEED * 0x9e3779b1 + of * 0x85ebca6b) | 0;
  }

  next(): number {
    this.state = (this.state + 0x6d2b79f5) | 0;
    let t = Math.imul(this.state ^ (this.state >>> 15), 1 | this.state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  below(count: number): number {
    return Math.floor(this.next() * count);
  }

  pick<T>(from: readonly T[]): T {
    return from[this.below(from.length)]!;
  }
}
