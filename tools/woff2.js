/** Half of the PDF writer's code is a dictionary for WOFF2 fonts. Ours is WOFF, so its decoder is left out. */
export const WITHOUT_WOFF2 = {
  filter: /[\\/]brotli[\\/]decompress\.js$/,
  contents: `module.exports = () => { throw new Error('A WOFF2 font cannot be read here. Use WOFF.'); };`,
};
