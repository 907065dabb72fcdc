import dataUrl from '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff?inline';

export const FONT_BYTES: Uint8Array<ArrayBuffer> = Uint8Array.from(
  atob(dataUrl.slice(dataUrl.indexOf(',') + 1)),
  (c) => c.charCodeAt(0),
);

export async function loadPageFont(): Promise<void> {
  document.fonts.add(await new FontFace('Source Sans 3', FONT_BYTES).load());
}
