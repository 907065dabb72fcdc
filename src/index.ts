export { figuresOf } from './curves/figures.ts';
export { parseJob } from './job/parse-job.ts';
export { quickJob } from './job/quick-job.ts';
export { makePart } from './part/make-part.ts';
