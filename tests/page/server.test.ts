import { type ChildProcess, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { request } from 'node:http';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fairlath, root } from '../cli/run.ts';

interface Reply {
  readonly status: number | undefined;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly body: string;
}

/** A port that nobody has, as far as anyone can know. */
const freePort = (): Promise<number> =>
  new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
    });
  });

const bin = join(root, 'bin', 'fairlath.js');

const serve = (port: number) => started(['page', '--port', String(port), '--json']);

async function started(args: readonly string[]): Promise<{ child: ChildProcess; out: string }> {
  const child = spawn(process.execPath, [bin, ...args]);
  const out = await new Promise<string>((resolve) =>
    child.stdout.once('data', (chunk) => resolve(String(chunk))),
  );
  return { child, out };
}

const ended = (child: ChildProcess): Promise<number | null> =>
  new Promise((resolve) => child.once('exit', resolve));

let port: number;
let child: ChildProcess;
let said: string;
beforeAll(async () => {
  port = await freePort();
  ({ child, out: said } = await serve(port));
});
afterAll(() => {
  child.kill();
});

const ask = (method = 'GET', path = '/', host = `127.0.0.1:${port}`): Promise<Reply> =>
  new Promise((resolve, reject) => {
    request({ host: '127.0.0.1', port, method, path, headers: { Host: host } }, (response) => {
      let body = '';
      // A chunk may end in the middle of a letter.
      response.setEncoding('utf8');
      response.on('data', (chunk) => {
        body += chunk;
      });
      response.on('end', () => resolve({ status: response.statusCode, headers: response.headers, body }));
    })
      .on('error', reject)
      .end();
  });

const page = (): string => readFileSync(join(root, 'dist', 'fairlath.html'), 'utf8');

describe('fairlath page', () => {
  test('tells where it is served', () => {
    expect(JSON.parse(said)).toEqual({
      command: 'page',
      url: `http://127.0.0.1:${port}/`,
      port,
      warnings: [],
    });
  });

  test('serves the one file, and by HEAD its headers alone', async () => {
    expect((await ask()).body).toBe(page());
    expect(await ask('HEAD')).toMatchObject({ status: 200, body: '' });
  });

  test('lets run what the page holds, and nothing else', async () => {
    const { headers, body } = await ask();
    const policy = String(headers['content-security-policy']);
    const script = /<script[^>]*>([\s\S]*?)<\/script>/.exec(body)?.[1] ?? '';
    const hash = createHash('sha256').update(script).digest('base64');
    expect(policy).toContain(`default-src 'none'; script-src 'sha256-${hash}';`);
    expect(policy).toContain(`frame-ancestors 'none'`);
    expect(policy).not.toMatch(/unsafe|https?:|\*/);
    expect(headers).toMatchObject({ 'x-content-type-options': 'nosniff', 'referrer-policy': 'no-referrer' });
  });

  test.each(['fairlath.example', '127.0.0.1', 'localhost.example:80', '[::1]:80'])(
    'does not answer to the name %s, wherever it points',
    async (host) => {
      const { status, body } = await ask('GET', '/', host);
      expect(status).toBe(421);
      expect(body).not.toContain('<html');
    },
  );

  test('answers to localhost', async () => {
    expect((await ask('GET', '/', `localhost:${port}`)).status).toBe(200);
  });

  test.each(['POST', 'PUT', 'DELETE', 'OPTIONS', 'PATCH'])('refuses %s', async (method) => {
    expect(await ask(method)).toMatchObject({ status: 405, headers: { allow: 'GET, HEAD' } });
  });

  test.each(['/index.html', '/../package.json', '/%2e%2e/package.json', '//', '/?x', '/favicon.ico'])(
    'has nothing at %s',
    async (path) => {
      expect((await ask('GET', path)).status).toBe(404);
    },
  );

  test('a port in use is refused, with another one to try', () => {
    const { code, err, faults } = fairlath(['page', '--port', String(port)]);
    expect({ code, faults }).toEqual({ code: 2, faults: [{ code: 'page.port-taken', key: '--port' }] });
    expect(err).toContain(`port ${port} `);
    expect(err).toContain(`--port ${port + 1}`);
  });

  test.each(['80', '65536', '4718x', ''])('refuses %s as a port', (typed) => {
    const { code, faults } = fairlath(['page', `--port=${typed}`]);
    expect({ code, faults }).toEqual({ code: 2, faults: [{ code: 'command.port', key: '--port' }] });
  });

  test.each(['SIGINT', 'SIGTERM'] as const)('ends in good order on %s', async (signal) => {
    const other = await serve(await freePort());
    other.child.kill(signal);
    expect(await ended(other.child)).toBe(0);
  });

  test('every example of its help starts it', async () => {
    const { out } = fairlath(['page', '--help']);
    const examples = [...out.matchAll(/^ {2}\$ fairlath (.+)$/gm)].map(([, line]) => line!.split(' '));
    expect(examples.length).toBeGreaterThan(0);
    for (const args of examples) {
      const { child: example, out: told } = await started(args);
      example.kill();
      await ended(example);
      expect(told).toMatch(/ http:\/\/127\.0\.0\.1:\d+\/\n/);
    }
  });
});
