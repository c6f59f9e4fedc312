/**
 * Requests of which the body stays away cost their routing, access and log lines before anybody knows that nothing comes. An
 * address that has many of them open is answered only for requests whose body has come.
 */
import type { IncomingMessage, RequestListener, Server, ServerResponse } from 'node:http';
import { normalizeIP } from '@fastify/rate-limit';
import { afterReading } from './after-reading.ts';
import { awaitFirstRequest } from './first-request-whole.ts';
import { hasBody } from './has-body.ts';

export interface UnfinishedBounds {
  /** Requests of one address whose body is still under way; an IPv6 network counts as one. */
  readonly mostOfOne: number;
  /** How long the body of a further one may take to arrive [ms of the machine]. */
  readonly patienceMs: number;
  /** How long a request still counts whose connection ended before its body had come [ms of the machine]. */
  readonly rememberedMs: number;
}

/** @param isProxy Whether an address speaks for many: such a one has no bound. */
export function boundUnfinishedBodies(
  server: Server,
  { mostOfOne, patienceMs, rememberedMs }: UnfinishedBounds,
  isProxy: (address: string) => boolean,
): void {
  const unfinished = new Map<string, number>();
  const handlers = server.listeners('request') as RequestListener[];
  server.removeAllListeners('request');
  const handle = (request: IncomingMessage, response: ServerResponse) => {
    for (const handler of handlers) handler.call(server, request, response);
  };

  const begin = (network: string, request: IncomingMessage) => {
    unfinished.set(network, (unfinished.get(network) ?? 0) + 1);
    let hasEnded = false;
    const leave = () => {
      const left = (unfinished.get(network) ?? 1) - 1;
      if (left > 0) unfinished.set(network, left);
      else unfinished.delete(network);
    };
    request.once('end', () => {
      hasEnded = true;
      leave();
    });
    // If one that broke off made room at once for the next, each half would cost as much as a whole request.
    request.once('close', () => {
      if (!hasEnded) setTimeout(leave, rememberedMs).unref();
    });
  };

  const isOver = (address: string) =>
    unfinished.size > 0 && !isProxy(address) && (unfinished.get(normalizeIP(address, 64)) ?? 0) >= mostOfOne;
  awaitFirstRequest(server, { waits: isOver, patienceMs });

  const onceLate = afterReading(patienceMs);
  // Further requests of a connection, and those that began before there were too many.
  server.on('request', (request: IncomingMessage, response: ServerResponse) => {
    const address = request.socket.remoteAddress ?? '';
    if (!hasBody(request) || isProxy(address)) {
      handle(request, response);
      return;
    }
    if (!isOver(address)) {
      begin(normalizeIP(address, 64), request);
      handle(request, response);
      return;
    }
    onceLate(() => {
      if (request.socket.destroyed) return;
      if (hasArrived(request)) handle(request, response);
      // There is nothing to answer to half a request.
      else request.socket.destroy();
    });
  });
}

/** Whole, or as much of it as is taken in before somebody reads it. */
function hasArrived({ complete, readableLength, readableHighWaterMark }: IncomingMessage): boolean {
  return complete || readableLength >= readableHighWaterMark;
}
