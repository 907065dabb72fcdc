/** How long a full or an empty pipe is left alone before the next attempt, ms. */
const PIPE_PAUSE_MS = 5;

/** Waits without giving way, ms. */
export const sleep = (ms = PIPE_PAUSE_MS): void =>
  void Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
