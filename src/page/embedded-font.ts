import type { FontSubset } from '../units/font-tables.ts';

const FOLDER = '../../node_modules/@fontsource/source-sans-3/files/source-sans-3-';
const DATA_URLS = import.meta.glob(
  '../../node_modules/@fontsource/source-sans-3/files/source-sans-3-*-400-normal.woff',
  { query: '?inline', import: 'default', eager: true },
);

/** Decoded only where a paper needs it. */
export function pageFont(subset: FontSubset): Uint8Array<ArrayBuffer> {
  const url = DATA_URLS[`${FOLDER}${subset}-400-normal.woff`] ?? '';
  return Uint8Array.from(atob(url.slice(url.indexOf(',') + 1)), (c) => c.charCodeAt(0));
}

/** Other letters on the screen are in the reader's own fonts. */
export async function loadPageFont(): Promise<void> {
  document.fonts.add(await new FontFace('Source Sans 3', pageFont('latin')).load());
}
