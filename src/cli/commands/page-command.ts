import { existsSync, readFileSync } from 'node:fs';
import { Fault } from '../../units/fault.ts';
import { plainCommand } from '../define-command.ts';
import { errorCode } from '../files/system-errors.ts';
import { option } from '../options/option-spec.ts';
import { writeLine } from '../output/stdout.ts';

/** Always the same: a browser keeps the last job under the address of the page. */
const DEFAULT_PORT = 4718;

/** Lower ports belong to the system. */
const [MIN_PORT, MAX_PORT] = [1024, 65_535];

export const makeCommand = plainCommand({
  name: 'page',
  summary: 'the whole job by hand and eye, in your browser',
  description:
    'Serve the page, the whole job by hand and eye in your browser: drag, type, look, print. Nothing leaves this ' +
    'computer.',
  usage: '[options]',
  options: [
    option('--port <number>', `where it is served, ${MIN_PORT} to ${MAX_PORT} (default: ${DEFAULT_PORT})`),
    option('--json', 'answer with one JSON object for programs: url, port'),
  ],
  notes: [
    'Open the address it prints in a browser on this computer; Ctrl-C ends it. The page is one file and needs no ' +
      'server: dist/fairlath.html opens by a double click, too, without any network.',
  ],
  files: 'Reads and writes no file: the page opens and saves jobs by itself.',
  examples: ['fairlath page', 'fairlath page --port 5050'],
  run: async ({ port: typed, json }) => {
    const { servePage } = await import('../page-server.ts');
    const wantedPort = parsePort(typed);
    const { url, port, close } = await servePage(readPageHtml(), wantedPort).catch((error: unknown) => {
      throw portFault(wantedPort, error);
    });
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => void close());
    writeLine(
      json
        ? JSON.stringify({ command: 'page', url, port, warnings: [] })
        : `${url} is the page. Open it in a browser on this computer; Ctrl-C here ends it.`,
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
  const wording = `"${typed}" is no port. Write a whole number from ${MIN_PORT} to ${MAX_PORT}.`;
  throw new Fault('command.port', wording, '--port');
}

function portFault(port: number, error: unknown): unknown {
  const code = errorCode(error);
  const another = port === MAX_PORT ? port - 1 : port + 1;
  if (code === 'EADDRINUSE') {
    const wording = `port ${port} is taken, perhaps by another fairlath page. Use that one, or write --port ${another}.`;
    return new Fault('page.port-taken', wording, '--port');
  }
  if (code === 'EACCES')
    return new Fault('page.port', `port ${port} may not be used here. Write --port ${another}.`, '--port');
  return error;
}
