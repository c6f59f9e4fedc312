/**
 * How many connections there may be, in all and from one address. It never ends a connection that has been let in to
 * make room.
 */
import type { Socket } from 'node:net';
import { isLoopbackAddress } from '../auth/auth-policy.ts';

export interface Arrivals {
  /** false when there is no place; the caller ends it. */
  take(socket: Socket): boolean;
  introduced(socket: Socket): void;
  count(): number;
  endAll(): void;
}

/** A tenth is kept for others even when all comes from this machine, four fifths when from another address. */
const shareOfThisMachine = 0.9;
const shareOfAnAddress = 0.2;

export function createArrivals(most: number): Arrivals {
  const all = new Set<Socket>();
  const unknown = new Set<Socket>(); // in the order they came
  const perAddress = new Map<string, number>();

  function leave(socket: Socket, address: string): void {
    if (!all.delete(socket)) return;
    unknown.delete(socket);
    const left = (perAddress.get(address) ?? 1) - 1;
    if (left > 0) perAddress.set(address, left);
    else perAddress.delete(address);
  }

  function makeRoom(from: (socket: Socket) => boolean): boolean {
    for (const socket of unknown) {
      if (!from(socket)) continue;
      leave(socket, addressOf(socket));
      socket.destroy();
      return true;
    }
    return false;
  }

  return {
    take(socket) {
      const address = addressOf(socket);
      const share = isLoopbackAddress(address) ? shareOfThisMachine : shareOfAnAddress;
      const mostHere = Math.max(1, Math.floor(most * share));
      if ((perAddress.get(address) ?? 0) >= mostHere && !makeRoom((other) => addressOf(other) === address))
        return false;
      if (all.size >= most && !makeRoom(() => true)) return false;
      all.add(socket);
      unknown.add(socket);
      perAddress.set(address, (perAddress.get(address) ?? 0) + 1);
      socket.once('close', () => leave(socket, address));
      return true;
    },
    introduced: (socket) => void unknown.delete(socket),
    count: () => all.size,
    endAll() {
      for (const socket of all) socket.destroy();
    },
  };
}

/** A socket forgets its peer once it is gone, so it is asked when it comes and remembered. */
const addresses = new WeakMap<Socket, string>();
export function addressOf(socket: Socket): string {
  const known = addresses.get(socket);
  if (known !== undefined) return known;
  const address = socket.remoteAddress ?? 'unknown';
  addresses.set(socket, address);
  return address;
}
