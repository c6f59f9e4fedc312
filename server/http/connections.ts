/**
 * Open connections, within bounds. When there are too many, of all or of one address, those give way that have been asked
 * nothing whole for longest: half a request holds a connection as an idle one does. What is being answered stays.
 */
import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import type { Socket } from 'node:net';
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
  // In the order in which they became idle; by network for the share of each.
  const all = new Map<string, Held>();
  const networks = new Map<string, Map<string, Held>>();

  const leave = (name: string, { network }: Held) => {
    all.delete(name);
    const others = networks.get(network);
    others?.delete(name);
    if (others?.size === 0) networks.delete(network);
  };
  const enter = (name: string, held: Held) => {
    all.set(name, held);
    const others = networks.get(held.network) ?? new Map<string, Held>();
    networks.set(held.network, others.set(name, held));
  };
  /** Ends the one that has been idle for longest. @returns false when none is. */
  const giveWay = (among: ReadonlyMap<string, Held>): boolean => {
    for (const [name, held] of among) {
      if (held.isAnswered) continue;
      leave(name, held);
      held.socket.destroy();
      return true;
    }
    return false;
  };

  server.on('connection', (socket: Socket) => {
    const address = socket.remoteAddress ?? '';
    const name = endsOf(socket);
    const held: Held = { socket, network: normalizeIP(address, 64), isAnswered: false };
    const others = networks.get(held.network);
    const isOver = others !== undefined && others.size >= mostOfOne && !isProxy(address);
    if ((isOver && !giveWay(others)) || (all.size >= most && !giveWay(all))) {
      socket.destroy();
      return;
    }
    enter(name, held);
    socket.once('close', () => {
      if (all.get(name) === held) leave(name, held);
    });
  });

  server.on('request', (request: IncomingMessage, response: ServerResponse) => {
    const name = endsOf(request.socket);
    const held = all.get(name);
    if (!held) return;
    const isWhole = () => {
      held.isAnswered = true;
    };
    if (hasBody(request)) {
      // Nobody hears of it, so the connection ends: there is nothing to answer to half a request.
      request.setTimeout(stalledBodyMs);
      request.once('end', () => {
        request.setTimeout(0);
        isWhole();
      });
    } else isWhole();
    response.once('close', () => {
      held.isAnswered = false;
      if (all.get(name) !== held) return;
      // It has just been of use: others give way before it.
      leave(name, held);
      enter(name, held);
    });
  });
}

/** The same under TLS as on the raw connection; two connections never have both ends in common. */
function endsOf({ remoteAddress, remotePort, localPort }: Socket): string {
  return `${remoteAddress} ${remotePort} ${localPort}`;
}
