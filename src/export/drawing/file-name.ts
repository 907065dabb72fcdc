/** The job's own name as the name of a file: "Hall bench leg" is hall-bench-leg.pdf. */
export function fileNameFor(title: string, ending: string): string {
  const words = title
    .toLowerCase()
    .normalize('NFKD')
    .split(/[^a-z0-9]+/);
  return (words.filter((word) => word !== '').join('-') || 'pattern') + ending;
}
