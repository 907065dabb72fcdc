/** The job's own name as the name of a file: "Hall bench leg" is hall-bench-leg.pdf. */
export const fileNameFor = (title: string, ending: string): string =>
  `${
    title
      .toLowerCase()
      .normalize('NFKD')
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '') || 'pattern'
  }${ending}`;
