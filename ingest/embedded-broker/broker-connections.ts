/**
 * The connections of the embedded broker: how each is read, at which pace, and what is counted when it is turned away
 * or parted from.
 */

import type { Socket } from 'node:net';
import type { Client } from 'aedes';
import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import type { AuthPolicy, Principal } from '../auth/auth-policy.ts';
import type { RefusedReason } from '../auth/connection-attempts.ts';
import type { Sink } from '../commit/inbound-source.ts';
import { type Arrivals, addressOf, createArrivals } from './arrivals.ts';
import { shownClientId } from './client-ids.ts';
import type { Principals } from './hook-parts.ts';
import type { TooLong } from './packet-guard.ts';
import { longestPublishBytes, packetTypes } from './packet-limits.ts';
import { createPrincipalPaces } from './principal-paces.ts';
import { ReadingGate } from './reading-gate.ts';

/** Longer silence on a connection is looked into by TCP itself, so that what the network lost is parted from. */
const probeSilenceMs = 60_000;

/** One connection: who counts it, and who decides when it is read. */
interface Connection {
  readonly raw: Socket;
  readonly gate: ReadingGate;
}

interface ConnectionsParts {
  readonly sink: Sink<never>;
  readonly authPolicy: AuthPolicy;
  readonly principals: Principals;
  readonly maxConnections: number;
  readonly packetsPerSecond: number;
}

export class BrokerConnections {
  readonly #parts: ConnectionsParts;
  readonly #arrivals: Arrivals;
  readonly #pacesOf: ReturnType<typeof createPrincipalPaces>;
  readonly #open = new WeakMap<Socket, Connection>();

  constructor(parts: ConnectionsParts) {
    this.#parts = parts;
    this.#arrivals = createArrivals(parts.maxConnections);
    this.#pacesOf = createPrincipalPaces(parts.packetsPerSecond);
  }

  /** Whether there is a place for one more connection. */
  arrive(socket: Socket): boolean {
    socket.setKeepAlive(true, probeSilenceMs);
    if (this.#arrivals.take(socket)) return true;
    this.refused(socket, 'too-many');
    return false;
  }

  /**
   * Reads a connection from now on.
   * @param raw The connection itself, where `socket` is what TLS makes of it.
   * @param handle Hands it to the broker.
   */
  speak(socket: Socket, raw: Socket, handle: (socket: Socket) => Client): void {
    const gate = new ReadingGate(socket, this.#parts.sink, {
      tooLong: (packet) => this.#tooLong(socket, packet, client),
      tooFast: () => this.refused(socket, 'too-fast', client),
      noMqtt: (speaks) => this.refused(socket, speaks === 'tls' ? 'tls-at-plain-port' : 'no-mqtt'),
    });
    this.#open.set(socket, { raw, gate });
    const client = handle(socket);
  }

  /** It said who it is, and keeps that one's pace from now on. */
  letIn(socket: Socket, principal: Principal): void {
    const connection = this.#open.get(socket);
    if (connection === undefined) return;
    this.#arrivals.introduced(connection.raw);
    connection.gate.setPaces(this.#pacesOf(principal));
  }

  /** What a message cost beside its length, in short packets. */
  spend(socket: Socket, packets: number): void {
    this.#open.get(socket)?.gate.spend(packets);
  }

  /** Counts a connection that was turned away, parted from or slowed. */
  refused(socket: Socket, reason: RefusedReason, client?: Client): void {
    const { authPolicy, principals } = this.#parts;
    authPolicy.connectionAttempts.count({
      address: addressOf(socket),
      clientId: shownClientId(client?.id ?? null),
      keyId: (client && principals.get(client)?.keyId) ?? null,
      reason,
    });
  }

  endAll(): void {
    this.#arrivals.endAll();
  }

  #tooLong(socket: Socket, { type, lengthBytes }: TooLong, client: Client): void {
    if (type !== packetTypes.publish) {
      this.refused(socket, 'too-long-packet', client);
      return;
    }
    const said = message('refusal.too-long', { mostCount: longestPublishBytes, foundCount: lengthBytes });
    this.#parts.sink.refuse(new ReadingError('payload-too-large', said), `(not read) from ${addressOf(socket)}`, '');
  }
}
