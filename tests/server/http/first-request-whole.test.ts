/** A connection on which requests are waited for: what comes whole is answered, what does not costs no more than its end. */
import { once } from 'node:events';
import { createServer, type Server } from 'node:http';
import { type AddressInfo, connect, type Socket } from 'node:net';
import { afterEach, describe, expect, test } from 'vitest';
import { awaitFirstRequest, isWhole } from '../../../server/http/first-request-whole.ts';

const head = (lines: string) => `POST /x HTTP/1.1\r\nHost: here\r\n${lines}\r\n`;

describe('isWhole', () => {
  test.each<[string, string, boolean]>([
    ['nothing', '', false],
    ['a head without its last sign', head('').slice(0, -1), false],
    ['a head without a body', head(''), true],
    ['a head and two bytes of three', `${head('Content-Length: 3\r\n')}12`, false],
    ['a head and its three bytes', `${head('content-length:3\r\n')}123`, true],
    ['more than was said', `${head('Content-Length: 3\r\n')}1234`, true],
    ['a body in chunks that goes on', `${head('Transfer-Encoding: chunked\r\n')}2\r\nab\r\n`, false],
    ['a body in chunks with its end', `${head('Transfer-Encoding: chunked\r\n')}2\r\nab\r\n0\r\n\r\n`, true],
    ['a length in the body only', `${head('Content-Length: 40\r\n')}\r\nContent-Length: 3\r\n`, false],
    ['what is no HTTP', 'x'.repeat(65_535), false],
    ['as much as is taken in unread', 'x'.repeat(65_536), true],
  ])('%s', (_name, text, whole) => expect(isWhole(Buffer.from(text))).toBe(whole));
});

describe('awaitFirstRequest', () => {
  let server: Server;
  const sockets: Socket[] = [];
  let handled: string[] = [];

  async function open(patienceMs: number): Promise<void> {
    handled = [];
    server = createServer((request, response) => {
      const parts: Buffer[] = [];
      request.on('data', (part: Buffer) => parts.push(part));
      request.on('end', () => {
        handled.push(Buffer.concat(parts).toString());
        response.end(`got ${handled.at(-1)}`);
      });
    });
    awaitFirstRequest(server, { waits: () => true, patienceMs });
    await once(server.listen(0, '127.0.0.1'), 'listening');
  }
  async function dial(): Promise<Socket> {
    const socket = connect((server.address() as AddressInfo).port, '127.0.0.1');
    sockets.push(socket.on('error', () => {}));
    await once(socket, 'connect');
    return socket.setNoDelay(true);
  }
  const answer = async (socket: Socket) => String((await once(socket, 'data'))[0]);
  const asked = (body: string) => `${head(`Content-Length: ${body.length}\r\n`)}${body}`;

  afterEach(async () => {
    for (const socket of sockets.splice(0)) socket.destroy();
    await new Promise((resolve) => server.close(resolve));
  });

  test('hands on, in their order, the bytes of a request that comes sign by sign, and speaks HTTP from then on', async () => {
    await open(60_000);
    const socket = await dial();
    for (const sign of asked('first')) {
      await new Promise<void>((resolve) => void socket.write(sign, () => resolve()));
      await new Promise((resolve) => setImmediate(resolve));
    }
    expect(await answer(socket)).toMatch(/got first$/);
    socket.write(asked('second').slice(0, -2));
    socket.write('nd');
    expect(await answer(socket)).toMatch(/got second$/);
  });

  test('answers two requests that come at once, both', async () => {
    await open(60_000);
    const socket = await dial();
    let got = '';
    socket.on('data', (part) => {
      got += part;
    });
    socket.write(asked('first') + asked('second'));
    while (handled.length < 2 || !got.includes('got second')) await once(socket, 'data');
    expect(handled).toEqual(['first', 'second']);
  });

  test('ends what has not come whole in time, without a request', async () => {
    await open(50);
    const socket = await dial();
    socket.write(asked('whole').slice(0, -1));
    await once(socket, 'close');
    expect(handled).toEqual([]);
  });

  test('reads what has come before it ends anything, however long the process was busy', async () => {
    await open(20);
    const connected = once(server, 'connection');
    const socket = await dial();
    await connected;
    socket.write(asked('in time'));
    const untilMs = performance.now() + 100;
    while (performance.now() < untilMs); // nothing is read meanwhile, and the time is up
    expect(await answer(socket)).toMatch(/got in time$/);
  });
});
