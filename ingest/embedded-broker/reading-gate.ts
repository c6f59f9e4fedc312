/**
 * Decides when the next bytes of a connection are read. It never lets one connection take the room, the time or the
 * memory of the others.
 */
import type { Socket } from 'node:net';
import { largestPayloadBytes } from '../commit/inbound.ts';
import type { Pace } from './pace.ts';
import { PacketGuard, type TooLong } from './packet-guard.ts';

/** Answers that a sender does not fetch; above this no more is read from it. */
const unfetchedBytes = 256 * 1024;

const connectByte = 0x10;
/** A handshake record of TLS (RFC 8446 section 5.1). */
const tlsByte = 0x16;

export interface GateRoom {
  hasRoom(): boolean;
  whenRoom(callback: () => void): void;
}

export interface GateHearing {
  /** Called once, before the connection ends for it. */
  tooLong(packet: TooLong): void;
  /** It sends faster than its pace; called when reading stops for it. */
  tooFast(): void;
  /** Its first bytes are no MQTT; called before the connection ends for it. */
  noMqtt(speaks: 'tls' | 'other'): void;
}

export class ReadingGate {
  readonly #socket: Socket;
  readonly #room: GateRoom;
  readonly #hearing: GateHearing;
  readonly #guard = new PacketGuard({ payloadBytes: largestPayloadBytes });
  #paces: readonly Pace[] = [];
  #isFirst = true;
  #waits = false;

  /** From now on the socket is read through this gate. */
  constructor(socket: Socket, room: GateRoom, hearing: GateHearing) {
    this.#socket = socket;
    this.#room = room;
    this.#hearing = hearing;
    const read = socket.read.bind(socket);
    // Nothing is asked of the gate where the stream asks for more in its own way, which takes nothing.
    socket.read = (size?: number) => (size === 0 ? read(0) : this.#read(read, size));
  }

  /** To be kept from now on; one may be shared with other connections. */
  setPaces(paces: readonly Pace[]): void {
    this.#paces = paces;
  }

  /** What it sent turned out to cost more than its length says. */
  spend(packets: number): void {
    for (const pace of this.#paces) pace.spend(packets);
  }

  #read(read: (size?: number) => unknown, size: number | undefined): unknown {
    while (!this.#mustWait()) {
      const chunk = read(size);
      if (!(chunk instanceof Uint8Array)) return chunk;
      if (this.#isFirst && chunk.length > 0) {
        this.#isFirst = false;
        // The first packet must be a CONNECT [MQTT-3.1.0-1], whose flags are fixed (section 3.1.1).
        if (chunk[0] !== connectByte)
          return this.#end(() => this.#hearing.noMqtt(chunk[0] === tlsByte ? 'tls' : 'other'));
      }
      const passed = this.#guard.pass(chunk);
      if (!(passed instanceof Uint8Array)) {
        return this.#end(() => this.#hearing.tooLong(passed));
      }
      this.spend(this.#guard.spent());
      if (passed.length > 0) return passed;
    }
    return null;
  }

  /** The network connection must be closed for what breaks the protocol [MQTT-4.8.0-1]. */
  #end(sayWhy: () => void): null {
    sayWhy();
    this.#socket.destroy();
    return null;
  }

  /** Whether reading has to wait; sees to it that it goes on. */
  #mustWait(): boolean {
    if (this.#waits) return true;
    if (!this.#room.hasRoom()) {
      this.#waits = true;
      this.#room.whenRoom(this.#goOn);
    } else if (this.#socket.writableLength > unfetchedBytes) {
      this.#waits = true;
      this.#socket.once('drain', this.#goOn);
    } else {
      const waitMs = this.#paceWaitMs();
      if (waitMs > 0) {
        this.#waits = true;
        this.#hearing.tooFast();
        setTimeout(this.#goOn, waitMs).unref();
      }
    }
    return this.#waits;
  }

  #paceWaitMs(): number {
    if (this.#paces.length === 0) return 0;
    const nowMs = performance.now();
    return Math.max(...this.#paces.map((pace) => pace.waitMs(nowMs)));
  }

  readonly #goOn = (): void => {
    this.#waits = false;
    if (!this.#socket.destroyed) this.#socket.emit('readable'); // the broker asks again, and this decides again
  };
}
