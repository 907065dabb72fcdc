import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';

const LOOPBACK = '127.0.0.1';

export interface PageServer {
  readonly url: string;
  readonly port: number;
  readonly close: () => Promise<void>;
}

/** Serves one page to this computer, and nothing else. Port 0 is any free port. */
export function servePage(html: string, port: number): Promise<PageServer> {
  const page = { body: Buffer.from(html), policy: contentSecurityPolicy(html) };
  const server = createServer((request, response) =>
    handleRequest(request, response, page, boundPort(server)),
  );
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, LOOPBACK, () => {
      const bound = boundPort(server);
      resolve({ url: `http://${LOOPBACK}:${bound}/`, port: bound, close: () => closeServer(server) });
    });
  });
}

function boundPort(server: Server): number {
  const address = server.address();
  return typeof address === 'object' && address ? address.port : 0;
}

const closeServer = (server: Server): Promise<void> =>
  new Promise((resolve) => {
    server.close(() => resolve());
    server.closeAllConnections();
  });

function handleRequest(
  { method, headers, url }: IncomingMessage,
  response: ServerResponse,
  page: { readonly body: Buffer; readonly policy: string },
  port: number,
): void {
  // Another site may point its own name at this computer. Such a request is refused.
  const isOwnHost = [`${LOOPBACK}:${port}`, `localhost:${port}`].includes(headers.host ?? '');
  if (!isOwnHost) sendError(response, 421, 'fairlath answers only at 127.0.0.1, on this computer.');
  else if (method !== 'GET' && method !== 'HEAD') {
    response.setHeader('Allow', 'GET, HEAD');
    sendError(response, 405, 'Use GET or HEAD.');
  } else if (url !== '/') sendError(response, 404, 'The only page is at /.');
  else {
    response.setHeader('Content-Security-Policy', page.policy);
    response.writeHead(200, { ...SECURITY_HEADERS, 'Content-Type': 'text/html; charset=utf-8' });
    response.end(method === 'HEAD' ? undefined : page.body);
  }
}

function sendError(response: ServerResponse, status: number, words: string): void {
  response.writeHead(status, { ...SECURITY_HEADERS, 'Content-Type': 'text/plain; charset=utf-8' });
  response.end(`${words}\n`);
}

const SECURITY_HEADERS = {
  'Cache-Control': 'no-store',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
} as const;

/** The policy in the page, and one rule that only a header can state: other sites may not frame the page. */
function contentSecurityPolicy(html: string): string {
  const policy = /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(html)?.[1];
  if (policy === undefined) throw new Error('the page states no policy');
  return `${policy}; frame-ancestors 'none'`;
}
