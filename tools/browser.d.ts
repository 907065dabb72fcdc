/** The browser's program, unpacked if it is not yet. */
export function browserPath(): string;
