/** A DXF of ours says so in its first comment; anything else is left alone. */
export const isOurDxf = (bytes: Buffer): boolean =>
  /^\s*999\r?\nDrawn by fairlath\./.test(bytes.toString('latin1', 0, 80));
