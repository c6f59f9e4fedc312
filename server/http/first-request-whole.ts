/**
 * The first request of a connection, waited for before HTTP is spoken on it: half a request then costs a read and a close, a
 * third of what a parser, its request and its abort cost.
 */
import type { Server } from 'node:http';
import type { Socket } from 'node:net';
import { Server as TlsServer } from 'node:tls';

/** As much of a body as is taken in before somebody reads it. */
const enoughBytes = 65_536;
const headEnd = '\r\n\r\n';

interface Waiting {
  readonly socket: Socket;
  readonly untilMs: number;
  isOver: boolean;
}

export interface FirstRequestBounds {
  /** Whether a connection of this address waits; else HTTP is spoken at once. */
  readonly waits: (address: string) => boolean;
  /** How long the request may take to arrive [ms of the machine]. */
  readonly patienceMs: number;
}

export function awaitFirstRequest(server: Server, { waits, patienceMs }: FirstRequestBounds): void {
  const event = server instanceof TlsServer ? 'secureConnection' : 'connection';
  const listeners = server.listeners(event) as ((socket: Socket) => void)[];
  server.removeAllListeners(event);
  const speak = (socket: Socket) => {
    for (const listener of listeners) listener.call(server, socket);
  };

  // All have the same patience, so they end in the order in which they came, by one timer.
  const queue: Waiting[] = [];
  let timer: NodeJS.Timeout | undefined;
  const endLate = () => {
    const nowMs = performance.now();
    const kept = queue.findIndex(({ isOver, untilMs }) => !isOver && untilMs > nowMs);
    // There is nothing to answer to half a request.
    for (const late of queue.splice(0, kept < 0 ? queue.length : kept)) if (!late.isOver) late.socket.destroy();
    const [next] = queue;
    timer = next && setTimeout(afterReading, next.untilMs - nowMs).unref();
  };
  // What came while the process was busy is read first: nobody pays for its being late.
  const afterReading = () => setImmediate(endLate);

  server.on(event, (socket: Socket) => {
    if (!waits(socket.remoteAddress ?? '')) {
      speak(socket);
      return;
    }
    const waiting: Waiting = { socket, untilMs: performance.now() + patienceMs, isOver: false };
    queue.push(waiting);
    if (timer === undefined) timer = setTimeout(afterReading, patienceMs).unref();
    const chunks: Buffer[] = [];
    const onError = () => socket.destroy();
    const onClose = () => {
      waiting.isOver = true;
    };
    const onData = (chunk: Buffer) => {
      chunks.push(chunk);
      const [first = chunk] = chunks;
      const come = chunks.length === 1 ? first : Buffer.concat(chunks);
      if (!isWhole(come)) return;
      waiting.isOver = true;
      socket.off('data', onData).off('error', onError).off('close', onClose).pause();
      socket.unshift(come);
      speak(socket);
      // Before anything further is read, so that it goes on in order.
      process.nextTick(() => socket.resume());
    };
    socket.on('error', onError).on('close', onClose).on('data', onData);
  });
}

/** Whether a request is here with its body, or with as much of it as is taken in unread. */
export function isWhole(come: Buffer): boolean {
  if (come.length >= enoughBytes) return true;
  const end = come.indexOf(headEnd);
  if (end < 0) return false;
  const head = come.toString('latin1', 0, end).toLowerCase();
  if (head.includes('\r\ntransfer-encoding:')) return come.subarray(-headEnd.length - 1).equals(lastChunk);
  const bodyBytes = Number(/\r\ncontent-length:[ \t]*(\d{1,15})/.exec(head)?.[1] ?? 0);
  return come.length >= end + headEnd.length + bodyBytes;
}

const lastChunk = Buffer.from(`0${headEnd}`);
