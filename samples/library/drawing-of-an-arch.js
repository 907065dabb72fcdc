// Writes the rail of the garden arch to standard output, as a full-size DXF drawing for a machine.
import { readFileSync } from 'node:fs';
import { fullSize, makePart, parseJob, writeDxf } from 'fairlath';

const text = readFileSync(new URL('../garden-arch-rail.yaml', import.meta.url), 'utf8');
const part = makePart(parseJob(text).job);

process.stdout.write(writeDxf(fullSize(part), { unit: 'mm', splines: false }));
