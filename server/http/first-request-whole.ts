/**
 * The first request of a connection, waited for before HTTP is spoken on it: half a request then costs a read and a close,
 * some half of what it costs with a parser, its request and its abort.
 */
import type { Server } from 'node:http';
import type { Socket } from 'node:net';
import { Server as TlsServer } from 'node:tls';
import { afterReading } from './after-reading.ts';

/** As much of a body as is taken in before somebody reads it. */
const enoughBytes = 65_536;
const headEnd = '\r\n\r\n';
const lastChunk = Buffer.from(`0${headEnd}`);
const nothing: Buffer = Buffer.alloc(0);

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

  const onceLate = afterReading(patienceMs);
  server.on(event, (socket: Socket) => {
    if (!waits(socket.remoteAddress ?? '')) {
      speak(socket);
      return;
    }
    let come = nothing;
    let isSpoken = false;
    const end = () => socket.destroy();
    const onData = (chunk: Buffer) => {
      come = come.length === 0 ? chunk : Buffer.concat([come, chunk]);
      if (!isWhole(come)) return;
      isSpoken = true;
      socket.off('data', onData).off('error', end).pause();
      socket.unshift(come);
      speak(socket);
      // Before anything further is read, so that it goes on in order.
      process.nextTick(() => socket.resume());
    };
    socket.on('error', end).on('data', onData);
    onceLate(() => {
      // There is nothing to answer to half a request.
      if (!isSpoken) end();
    });
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
