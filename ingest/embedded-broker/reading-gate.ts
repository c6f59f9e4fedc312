/**
 * Decides when the next bytes of a connection are read. It never lets one connection take the room, the time or the
 * memory of the others.
 */
import type { Socket } from 'node:net';
import { largestPayloadBytes } from '../commit/intake.ts';
import type { Pace } from './pace.ts';
import { createPacketGuard, type TooLong } from './packet-guard.ts';

/** Answers that a sender does not fetch; above this no more is read from it. */
const unfetchedBytes = 256 * 1024;

export interface GateRoom {
  hasRoom(): boolean;
  whenRoom(callback: () => void): void;
}

export interface GateHearing {
  /** Called once, before the connection ends for it. */
  tooLong(packet: TooLong): void;
  /** It sends faster than its pace; called when reading stops for it. */
  tooFast(): void;
}

export interface ReadingGate {
  /** To be kept from now on; one may be shared with other connections. */
  setPaces(paces: readonly Pace[]): void;
  /** What it sent turned out to cost more than its length says. */
  spend(packets: number): void;
}

export function gateReading(socket: Socket, room: GateRoom, hearing: GateHearing): ReadingGate {
  const guard = createPacketGuard({ payloadBytes: largestPayloadBytes });
  const read = socket.read.bind(socket);
  let paces: readonly Pace[] = [];
  let waits = false;

  function goOn(): void {
    waits = false;
    if (!socket.destroyed) socket.emit('readable'); // the broker asks again, and this decides again
  }

  function paceWaitMs(): number {
    if (paces.length === 0) return 0;
    const nowMs = performance.now();
    return Math.max(...paces.map((pace) => pace.waitMs(nowMs)));
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
      const waitMs = paceWaitMs();
      if (waitMs > 0) {
        waits = true;
        hearing.tooFast();
        setTimeout(goOn, waitMs).unref();
      }
    }
    return waits;
  }

  function spend(packets: number): void {
    for (const pace of paces) pace.spend(packets);
  }

  socket.read = (size?: number) => {
    if (size === 0) return read(0); // the stream's own way of asking for more, which takes nothing
    while (!mustWait()) {
      const chunk: unknown = read(size);
      if (!(chunk instanceof Uint8Array)) return chunk;
      const passed = guard.pass(chunk);
      if (!(passed instanceof Uint8Array)) {
        hearing.tooLong(passed);
        // The network connection must be closed for what breaks the protocol [MQTT-4.8.0-1].
        socket.destroy();
        return null;
      }
      spend(guard.spent());
      if (passed.length > 0) return passed;
    }
    return null;
  };

  return {
    setPaces(given) {
      paces = given;
    },
    spend,
  };
}
