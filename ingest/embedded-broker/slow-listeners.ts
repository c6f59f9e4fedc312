/**
 * How much may wait for those who listen slower than messages come: much for a few of them, little for the rest, so that
 * all together stay within some 100 MB.
 */
import type { Socket } from 'node:net';

const muchBytes = 1024 * 1024;
const littleBytes = 64 * 1024;
const mostWithMuch = 32;

export interface SlowListeners {
  /** Whether this one may be sent more now; if not, the message passes it by. */
  mayHear(socket: Socket): boolean;
}

export function createSlowListeners(): SlowListeners {
  const withMuch = new Set<Socket>();

  return {
    mayHear(socket) {
      const waitingBytes = socket.writableLength;
      if (waitingBytes <= littleBytes) return true;
      if (waitingBytes > muchBytes) return false;
      if (withMuch.has(socket)) return true;
      if (withMuch.size >= mostWithMuch) return false;
      withMuch.add(socket);
      const fetched = () => {
        withMuch.delete(socket);
        socket.off('drain', fetched);
        socket.off('close', fetched);
      };
      socket.on('drain', fetched);
      socket.on('close', fetched);
      return true;
    },
  };
}
