// The rail of the garden arch at full size, as a DXF for a machine. Writes to standard output.
import { readFileSync } from 'node:fs';
import { fullSize, makePart, parseJob, writeDxf } from 'fairlath';

const text = readFileSync(new URL('../garden-arch-rail.yaml', import.meta.url), 'utf8');
const part = makePart(parseJob(text).job);

process.stdout.write(writeDxf(fullSize(part), { unit: 'mm', splines: false }));
