/** What a pipe that is full, or empty, is given before it is tried again, ms. */
const NAP_MS = 5;

export const nap = (ms = NAP_MS): void =>
  void Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
