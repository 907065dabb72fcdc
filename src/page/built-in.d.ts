declare module 'virtual:samples' {
  export const SAMPLES: readonly { readonly name: string; readonly text: string }[];
}

/** Files as data URLs: here those of Source Sans 3, for the screen and for the PDF. */
interface ImportMeta {
  glob(pattern: string, options: object): Readonly<Record<string, string>>;
}

declare module '*.css';
