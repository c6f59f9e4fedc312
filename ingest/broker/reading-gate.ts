/**
 * ingest/broker/reading-gate.ts: decides when the next bytes of a connection are read.
 *
 * Takes:  the socket the broker reads from, whether there is room for what it says, the pace its speaker has to keep.
 * Gives:  bytes when they may come. What may not come yet stays unread and unacknowledged at its sender, as TCP lets it.
 * Never:  lets one connection take the room, the time or the memory of the others.
 */
import type { Socket } from 'node:net';
import type { Pace } from './pace.ts';
import { createPacketGuard } from './packet-guard.ts';

/** Above this a packet is not even read to its end; up to it, it is read, refused and acknowledged. */
export const longestPacketBytes = 2 * 1024 * 1024;
/** Of the packet by which somebody says who they are: a CONNECT with a will fits easily. */
export const longestFirstPacketBytes = 16 * 1024;
/** A packet above this is long; only so many may be on their way at once, whoever sends them. */
const longBytes = 64 * 1024;
const mostLongAtOnce = 16;
/** Answers that a sender does not fetch; above this no more is read from it. */
const unfetchedBytes = 256 * 1024;

export interface GateRoom {
  hasRoom(): boolean;
  whenRoom(callback: () => void): void;
}

export interface GateHearing {
  tooLong(lengthBytes: number): void;
  /** It sends faster than its pace; called when reading stops for it. */
  tooFast(): void;
}

export interface ReadingGate {
  /** To be kept from now on. */
  setPace(pace: Pace | undefined): void;
}

export interface LongPackets {
  readonly senders: Set<Socket>;
}

export function gateReading(socket: Socket, room: GateRoom, long: LongPackets, hearing: GateHearing): ReadingGate {
  const guard = createPacketGuard(longestPacketBytes, longestFirstPacketBytes);
  const read = socket.read.bind(socket);
  let pace: Pace | undefined;
  let waits = false;

  function goOn(): void {
    waits = false;
    if (!socket.destroyed) socket.emit('readable'); // the broker asks again, and this decides again
  }

  /** Whether reading has to wait; sees to it that it goes on. */
  function mustWait(): boolean {
    if (waits) return true;
    if (!room.hasRoom()) {
      waits = true;
      room.whenRoom(goOn);
    } else if (socket.writableLength > unfetchedBytes) {
      waits = true;
      socket.once('drain', goOn);
    } else {
      const waitMs = pace?.waitMs(performance.now()) ?? 0;
      if (waitMs > 0) {
        waits = true;
        hearing.tooFast();
        setTimeout(goOn, waitMs).unref();
      }
    }
    return waits;
  }

  function refuse(lengthBytes: number): null {
    hearing.tooLong(lengthBytes);
    socket.destroy();
    return null;
  }

  socket.read = (size?: number) => {
    if (size === 0) return read(0); // the stream's own way of asking for more, which takes nothing
    if (mustWait()) return null;
    const chunk: unknown = read(size);
    if (!(chunk instanceof Uint8Array)) return chunk;
    const lengthBytes = guard.see(chunk);
    if (lengthBytes !== undefined) return refuse(lengthBytes);
    pace?.spend(guard.begun());
    if (guard.toCome() <= longBytes) long.senders.delete(socket);
    else if (!long.senders.has(socket)) {
      if (long.senders.size >= mostLongAtOnce) return refuse(guard.toCome());
      long.senders.add(socket);
    }
    return chunk;
  };
  socket.once('close', () => long.senders.delete(socket));

  return {
    setPace(given) {
      pace = given;
    },
  };
}
