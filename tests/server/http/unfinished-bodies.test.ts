/** Bodies that stay away cost an address its patience, and nobody else anything. */
import { once } from 'node:events';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { type AddressInfo, connect, type Socket } from 'node:net';
import { afterEach, expect, test } from 'vitest';
import { boundUnfinishedBodies } from '../../../server/http/unfinished-bodies.ts';
import { until } from '../../helpers/until.ts';

const mostOfOne = 3;
const proxy = '127.0.0.9';
let handled = 0;
let server: Server;
const sockets: Socket[] = [];

/** @param rememberedMs For longer than any test, unless given. */
async function open(rememberedMs = 600_000): Promise<void> {
  handled = 0;
  server = createServer((request: IncomingMessage, response: ServerResponse) => {
    handled += 1;
    let text = '';
    request.on('data', (chunk) => {
      text += chunk;
    });
    request.on('end', () => response.end(`got ${text.length}`));
  });
  boundUnfinishedBodies(server, { mostOfOne, patienceMs: 100, rememberedMs }, (address) => address === proxy);
  await once(server.listen(0, '127.0.0.1'), 'listening');
}

afterEach(async () => {
  for (const socket of sockets.splice(0)) socket.destroy();
  await new Promise((resolve) => server.close(resolve));
});

async function send(text: string, localAddress = '127.0.0.1'): Promise<Socket> {
  const socket = connect({ port: (server.address() as AddressInfo).port, host: '127.0.0.1', localAddress });
  sockets.push(socket.on('error', () => {}));
  await once(socket, 'connect');
  socket.write(text);
  return socket;
}
const post = (length: number, body: string) =>
  `POST /x HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: ${length}\r\n\r\n${body}`;
const half = post(400, '{"na');
const whole = post(2, '{}');
const answerTo = async (socket: Socket) => ((await once(socket, 'data')) as [Buffer])[0].toString();

/** An address whose bound is used up. */
async function withHalves(count: number, from = '127.0.0.1', ofThemHandled = count): Promise<void> {
  const before = handled;
  for (let one = 0; one < count; one += 1) await send(half, from);
  await until('the halves to be handled', async () => (handled >= before + ofThemHandled ? true : undefined));
}

test('as many as the bound are handled at once, one more is ended without being handled', async () => {
  await open();
  await withHalves(mostOfOne);
  const further = await send(half);
  await once(further, 'close');
  expect(handled).toBe(mostOfOne);
});

test('one whose body comes along is answered, as is one without a body', async () => {
  await open();
  await withHalves(mostOfOne);
  expect(await answerTo(await send(whole))).toMatch(/got 2$/);
  expect(await answerTo(await send('GET /x HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n'))).toMatch(/got 0$/);
});

test('one whose large body has begun to come is answered when it is there', async () => {
  await open();
  await withHalves(mostOfOne);
  const large = 'x'.repeat(200_000);
  const socket = await send(post(2 * large.length, large));
  await until('it to be handled', async () => (handled > mostOfOne ? true : undefined));
  socket.write(large);
  expect(await answerTo(socket)).toMatch(/got 400000$/);
});

test('one whose body came while the process was busy is answered, also on a connection that was of use before', async () => {
  await open();
  const socket = await send(whole);
  expect(await answerTo(socket)).toMatch(/got 2$/);
  await withHalves(mostOfOne);
  const seen = new Promise<void>((resolve) => server.prependOnceListener('request', () => resolve()));
  socket.write(post(7, ''));
  await seen;
  socket.write('in time');
  const untilMs = performance.now() + 150;
  while (performance.now() < untilMs); // nothing is read meanwhile, and its time is up
  expect(await answerTo(socket)).toMatch(/got 7$/);
});

test('a half that breaks off leaves its place to the next after a while', async () => {
  await open(200);
  await withHalves(mostOfOne);
  sockets[0]?.destroy();
  await until('the next half to be handled', async () => {
    await send(half);
    return handled > mostOfOne ? true : undefined;
  });
});

test('a half that breaks off makes no room at once', async () => {
  await open();
  await withHalves(mostOfOne);
  for (const socket of sockets.splice(0)) socket.destroy();
  await until('them to be gone', async () => {
    const count = await new Promise<number>((resolve) => server.getConnections((_error, open) => resolve(open)));
    return count === 0 ? true : undefined;
  });
  const further = await send(half);
  await once(further, 'close');
  expect(handled).toBe(mostOfOne);
});

test('a request that comes whole leaves its place at once', async () => {
  await open();
  for (let one = 0; one < 3 * mostOfOne; one += 1) expect(await answerTo(await send(whole))).toMatch(/got 2$/);
  await withHalves(mostOfOne);
});

test('another address is not held to it, and a proxy has no bound', async () => {
  await open();
  await withHalves(mostOfOne);
  await withHalves(mostOfOne + 1, '127.0.0.2', mostOfOne);
  await withHalves(mostOfOne + 2, proxy);
});
