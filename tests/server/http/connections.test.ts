/** Half-sent requests and idle connections hold nobody out. */
import { once } from 'node:events';
import { type AddressInfo, connect, type Socket } from 'node:net';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';
import { until } from '../../helpers/until.ts';

const most = 40;
const share = most / 4;
let one: TestInstallation;
let remove: () => Promise<void>;
beforeAll(async () => {
  const folder = await makeDataDir();
  remove = folder.remove;
  const proxies = { TRUSTED_PROXIES: '127.0.0.9', CONNECTIONS: String(most), API_TOKEN: 'a-token-of-the-test' };
  one = await openTestInstallation(folder.dataDir, proxies, undefined, { stalledBodyMs: 500 });
  await one.app.listen({ host: '127.0.0.1', port: 0 });
});
afterAll(async () => {
  await one.close();
  await remove();
});
const port = () => (one.app.server.address() as AddressInfo).port;
const connections = () =>
  new Promise<number>((resolve, reject) =>
    one.app.server.getConnections((error, count) => (error ? reject(error) : resolve(count))),
  );

/** A connection on which this much of a request was sent. */
async function sent(text: string, localAddress = '127.0.0.1'): Promise<Socket> {
  const socket = connect({ port: port(), host: '127.0.0.1', localAddress });
  socket.on('error', () => {});
  await once(socket, 'connect');
  socket.write(text);
  return socket;
}
const half =
  'POST /api/session HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: 400\r\n\r\n{"na';
const halfHead = 'POST /api/session HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Wait';

async function answerTo(socket: Socket, request: string): Promise<string> {
  let text = '';
  socket.on('data', (chunk) => {
    text += chunk;
  });
  const ended = once(socket, 'close');
  socket.write(request);
  await ended;
  return text;
}
const whole = 'GET /api/health HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n';

describe('half-sent requests', () => {
  for (const [what, text] of [
    ['of which the body is missing', half],
    ['of which the headers are missing', halfHead],
    ['of which nothing came', ''],
  ] as const) {
    test(`${what} give way: the same address is still answered, and holds no more than its share`, async () => {
      const sockets: Socket[] = [];
      for (let count = 0; count < 3 * share; count += 1) sockets.push(await sent(text, '127.0.0.2'));
      expect(await answerTo(await sent('', '127.0.0.2'), whole)).toMatch(/^HTTP\/1\.1 200/);
      expect(await answerTo(await sent('', '127.0.0.3'), whole)).toMatch(/^HTTP\/1\.1 200/);
      expect(await connections()).toBeLessThanOrEqual(share);
      for (const socket of sockets) socket.destroy();
      await until('all to be gone', async () => ((await connections()) === 0 ? true : undefined));
    });
  }

  test('from many addresses leave a place for one that asks something whole', async () => {
    const sockets: Socket[] = [];
    for (let count = 0; count < 2 * most; count += 1) sockets.push(await sent(half, `127.0.1.${1 + (count % 16)}`));
    expect(await connections()).toBeLessThanOrEqual(most);
    expect(await answerTo(await sent('', '127.0.0.3'), whole)).toMatch(/^HTTP\/1\.1 200/);
    for (const socket of sockets) socket.destroy();
    await until('all to be gone', async () => ((await connections()) === 0 ? true : undefined));
  });

  test('end by themselves when the rest of the body stays away', async () => {
    const socket = await sent(half);
    await once(socket, 'close');
    expect(await connections()).toBe(0);
  });
});

describe('what is being answered', () => {
  const live = 'GET /api/live HTTP/1.1\r\nHost: 127.0.0.1\r\nAuthorization: Bearer a-token-of-the-test\r\n\r\n';

  test('stays, however many others come', async () => {
    const page = await sent(live, '127.0.0.2');
    const [hello] = (await once(page, 'data')) as [Buffer];
    expect(hello.toString()).toContain('200 OK');
    const sockets: Socket[] = [];
    for (let count = 0; count < 3 * share; count += 1) sockets.push(await sent(half, '127.0.0.2'));
    expect(await answerTo(await sent('', '127.0.0.2'), whole)).toMatch(/^HTTP\/1\.1 200/);
    one.installation.hub.publishLater('probe', 'a/b', () => ({}) as never);
    await once(page, 'data');
    expect(page.destroyed).toBe(false);
    for (const socket of [...sockets, page]) socket.destroy();
    await until('all to be gone', async () => ((await connections()) === 0 ? true : undefined));
  });

  test('of one address fills its share and no more; a trusted proxy has all, and each visitor behind it a share', async () => {
    const pages: Socket[] = [];
    const open = async (from: string, visitor?: string) => {
      const forwarded = visitor ? `X-Forwarded-For: ${visitor}\r\n` : '';
      const page = await sent(live.replace('\r\n\r\n', `\r\n${forwarded}\r\n`), from);
      pages.push(page);
      const [said] = (await Promise.race([once(page, 'data'), once(page, 'close')])) as [Buffer | boolean];
      return Buffer.isBuffer(said) ? said.toString().slice(9, 12) : 'closed';
    };
    const straight = [];
    for (let count = 0; count < share + 1; count += 1) straight.push(await open('127.0.0.4'));
    expect(straight).toEqual([...Array.from({ length: share }, () => '200'), 'closed']);
    const behind = [];
    for (let count = 0; count < share + 1; count += 1) behind.push(await open('127.0.0.9', '203.0.113.7'));
    expect(behind).toEqual([...Array.from({ length: share }, () => '200'), '429']);
    expect(await open('127.0.0.9', '203.0.113.8')).toBe('200');
    for (const page of pages) page.destroy();
    await until('all to be gone', async () => ((await connections()) === 0 ? true : undefined));
    expect(await open('127.0.0.9', '203.0.113.7')).toBe('200');
  });
});

test('health looks at the stores once a second, however often it is asked', async () => {
  const nowMs = performance.now() + 60_000;
  const clock = vi.spyOn(performance, 'now').mockReturnValue(nowMs);
  const looks = vi.spyOn(one.installation.readings, 'check');
  try {
    for (let count = 0; count < 20; count += 1) expect((await one.app.inject('/api/health')).statusCode).toBe(200);
    expect(looks).toHaveBeenCalledTimes(1);
    clock.mockReturnValue(nowMs + 1_000);
    await one.app.inject('/api/health');
    expect(looks).toHaveBeenCalledTimes(2);
  } finally {
    clock.mockRestore();
    looks.mockRestore();
  }
});
