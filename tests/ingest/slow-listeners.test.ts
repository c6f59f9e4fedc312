import { EventEmitter } from 'node:events';
import type { Socket } from 'node:net';
import { expect, test } from 'vitest';
import { createSlowListeners } from '../../ingest/embedded-broker/slow-listeners.ts';

/** Only what is asked of a socket here. */
class Waiting extends EventEmitter {
  writableLength = 0;
}
const listenerWith = (waitingBytes: number) => {
  const socket = new Waiting();
  socket.writableLength = waitingBytes;
  return socket;
};
const mayHear = (slow: ReturnType<typeof createSlowListeners>, socket: Waiting) =>
  slow.mayHear(socket as unknown as Socket);

test('32 listeners may have a megabyte waiting, the next only 64 KiB, until one of them has fetched its own', () => {
  const slow = createSlowListeners();
  const first = Array.from({ length: 32 }, () => listenerWith(500_000));
  expect(first.every((socket) => mayHear(slow, socket))).toBe(true);
  expect(first.every((socket) => mayHear(slow, socket))).toBe(true);
  const next = listenerWith(65_537);
  expect(mayHear(slow, next)).toBe(false);
  expect(mayHear(slow, listenerWith(65_536))).toBe(true);
  first[7]?.emit('drain');
  expect(mayHear(slow, next)).toBe(true);
  expect(first[7]?.listenerCount('close')).toBe(0);
});

test('nobody may have more than a megabyte waiting', () => {
  expect(mayHear(createSlowListeners(), listenerWith(1_048_577))).toBe(false);
});
