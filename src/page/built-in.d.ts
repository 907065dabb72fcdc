declare module 'virtual:samples' {
  export const SAMPLES: readonly { readonly name: string; readonly text: string }[];
}

/** Source Sans 3 as a data URL: one copy for the screen and for the PDF. */
declare module '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff?inline' {
  const url: string;
  export default url;
}

declare module '*.css';
