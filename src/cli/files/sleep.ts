/** What a pipe that is full, or empty, is given before it is tried again, ms. */
const DEFAULT_SLEEP_MS = 5;

export const sleep = (ms = DEFAULT_SLEEP_MS): void =>
  void Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
