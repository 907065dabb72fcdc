/** Whether a file is a picture of ours, which may be replaced. */
export const isOurSvg = (bytes: Buffer): boolean => bytes.includes('<desc>Drawn by fairlath.');
