/**
 * Open connections, within bounds. When there are too many, of all or of one address, those give way that have been asked
 * nothing whole for longest: half a request holds a connection as an idle one does. What is being answered stays.
 */
import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import type { Socket } from 'node:net';
import { Server as TlsServer } from 'node:tls';
import { normalizeIP } from '@fastify/rate-limit';
import { hasBody } from './has-body.ts';

export interface ConnectionBounds {
  /** Connections at once. */
  readonly most: number;
  /** Of one address; an IPv6 network counts as one. */
  readonly mostOfOne: number;
  /** How long the rest of a body may stay away [ms of the machine]. */
  readonly stalledBodyMs: number;
}

interface Held {
  readonly name: unknown;
  readonly socket: Socket;
  readonly network: string;
  isAnswered: boolean;
}

/** @param isProxy Whether an address speaks for many: such a one may take all connections there are. */
export function boundConnections(
  server: Server,
  { most, mostOfOne, stalledBodyMs }: ConnectionBounds,
  isProxy: (address: string) => boolean,
): void {
  const idle = new HeldConnections();
  // Under TLS a request names another socket than its raw connection.
  const nameOf = server instanceof TlsServer ? endsOf : (socket: Socket) => socket;

  server.on('connection', (socket: Socket) => {
    const address = socket.remoteAddress ?? '';
    const held: Held = { name: nameOf(socket), socket, network: normalizeIP(address, 64), isAnswered: false };
    const others = idle.ofNetwork(held.network);
    const isOver = others !== undefined && others.size >= mostOfOne && !isProxy(address);
    if ((isOver && !idle.giveWay(others)) || (idle.all.size >= most && !idle.giveWay(idle.all))) {
      socket.destroy();
      return;
    }
    idle.enter(held);
    socket.once('close', () => idle.leave(held));
  });

  server.on('request', (request: IncomingMessage, response: ServerResponse) => {
    const held = idle.all.get(nameOf(request.socket));
    if (!held) return;
    whenWhole(request, stalledBodyMs, () => {
      held.isAnswered = true;
    });
    response.once('close', () => {
      held.isAnswered = false;
      // It has just been of use: others give way before it.
      if (idle.leave(held)) idle.enter(held);
    });
  });
}

/** Calls once all of a request is here; a body of which nothing more comes ends its connection. */
function whenWhole(request: IncomingMessage, stalledBodyMs: number, isWhole: () => void): void {
  if (!hasBody(request)) {
    isWhole();
    return;
  }
  // Nobody hears of it, so the connection ends: there is nothing to answer to half a request.
  request.setTimeout(stalledBodyMs);
  request.once('end', () => {
    request.setTimeout(0);
    isWhole();
  });
}

/** In the order in which they became idle; by network for the share of each. */
class HeldConnections {
  readonly #all = new Map<unknown, Held>();
  readonly #networks = new Map<string, Map<unknown, Held>>();

  get all(): ReadonlyMap<unknown, Held> {
    return this.#all;
  }

  ofNetwork(network: string): ReadonlyMap<unknown, Held> | undefined {
    return this.#networks.get(network);
  }

  enter(held: Held): void {
    this.#all.set(held.name, held);
    const others = this.#networks.get(held.network) ?? new Map<unknown, Held>();
    this.#networks.set(held.network, others.set(held.name, held));
  }

  /** @returns false when it was not there, or another has its name by now. */
  leave(held: Held): boolean {
    const { name, network } = held;
    if (this.#all.get(name) !== held) return false;
    this.#all.delete(name);
    const others = this.#networks.get(network);
    others?.delete(name);
    if (others?.size === 0) this.#networks.delete(network);
    return true;
  }

  /** Ends the one that has been idle for longest. @returns false when none is. */
  giveWay(among: ReadonlyMap<unknown, Held>): boolean {
    for (const held of among.values()) {
      if (held.isAnswered) continue;
      this.leave(held);
      held.socket.destroy();
      return true;
    }
    return false;
  }
}

/** The same under TLS as on the raw connection; two connections never have both ends in common. */
function endsOf({ remoteAddress, remotePort, localPort }: Socket): string {
  return `${remoteAddress} ${remotePort} ${localPort}`;
}
