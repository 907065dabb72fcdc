import { existsSync, readFileSync } from 'node:fs';
import { Fault } from '../../units/fault.ts';
import { plainCommand } from '../define-command.ts';
import { errorCode } from '../files/system-errors.ts';
import { option } from '../options/option-spec.ts';
import { writeLine } from '../output/stdout.ts';

/** Always the same, because a browser keeps the last job under the address of the page. */
const DEFAULT_PORT = 4718;

/** Lower ports are reserved for the system. */
const [MIN_PORT, MAX_PORT] = [1024, 65_535];

export const makeCommand = plainCommand({
  name: 'page',
  summary: 'the editor in your browser: drag, type, print',
  description:
    'Serve the editor for your browser: drag points, type numbers, check and print. Nothing leaves this computer.',
  usage: '[options]',
  options: [
    option('--port <number>', `port of the page, ${MIN_PORT} to ${MAX_PORT} (default: ${DEFAULT_PORT})`),
    option('--json', 'answer with one JSON object for programs: url, port'),
  ],
  notes: [
    'Open the printed address in a browser on this computer. Press Ctrl+C to stop. The page is one file, which also ' +
      'opens by a double click on dist/fairlath.html, without a network.',
  ],
  files: 'This command reads and writes no files. Open and save jobs in the browser.',
  examples: ['fairlath page', 'fairlath page --port 5050'],
  run: async ({ port: typed, json }) => {
    const { servePage } = await import('../page-server.ts');
    const requestedPort = parsePort(typed);
    const { url, port, close } = await servePage(readPageHtml(), requestedPort).catch((error: unknown) => {
      throw portFault(requestedPort, error);
    });
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => void close());
    writeLine(
      json
        ? JSON.stringify({ command: 'page', url, port, warnings: [] })
        : `Open this address in a browser on this computer: ${url}\nPress Ctrl+C here to stop.`,
    );
  },
});

/** The page is in dist, and the script of this command in dist/cli. */
function readPageHtml(): string {
  const candidates = ['fairlath.html', '../fairlath.html'].map((name) => new URL(name, import.meta.url));
  const found = candidates.find((place) => existsSync(place));
  if (found) return readFileSync(found, 'utf8');
  const wording =
    'the page is not built. Run "npm run build" once in the folder of fairlath, then try again.';
  throw new Fault('page.not-built', wording);
}

function parsePort(typed = String(DEFAULT_PORT)): number {
  const port = Number(typed);
  if (/^\d{1,5}$/.test(typed) && port >= MIN_PORT && port <= MAX_PORT) return port;
  const wording = `"${typed}" is not a port for the page. Use a whole number from ${MIN_PORT} to ${MAX_PORT}.`;
  throw new Fault('command.port', wording, '--port');
}

function portFault(port: number, error: unknown): unknown {
  const code = errorCode(error);
  const another = port === MAX_PORT ? port - 1 : port + 1;
  if (code === 'EADDRINUSE') {
    const wording = `port ${port} is already in use, perhaps by another fairlath page. Open that page, or use --port ${another}.`;
    return new Fault('page.port-taken', wording, '--port');
  }
  if (code === 'EACCES')
    return new Fault('page.port', `the system does not allow port ${port}. Use --port ${another}.`, '--port');
  return error;
}
