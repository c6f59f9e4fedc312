/** What a way in (embedded or outside broker) is given and gives. */

import type { Clock } from '../../shared/clock.ts';
import type { ReadingError } from '../../shared/errors.ts';
import type { PartHealth } from '../../shared/part-health.ts';
import type { Inbound } from './inbound.ts';

/** What pino's logger offers and we use. */
export interface IngestLog {
  info(fields: object, message: string): void;
  warn(fields: object, message: string): void;
  error(fields: object, message: string): void;
}

/** The same three states as in /api/health. */
export type SourceHealth = PartHealth<'ok' | 'degraded' | 'down'>;

/** What to hear of topics that are not ours. */
export interface ForeignFilter {
  readonly filter: string;
  /** At 0 nothing waits at a broker while we are away, which is right for what says no time. */
  readonly qos: 0 | 1;
  /** Heard where the broker lets us; a refusal is no trouble. */
  readonly isOptional: boolean;
  /** Whether a message that the broker is to keep is known by that at once (MQTT 5 section 3.8.3.1, Retain As Published). */
  readonly saysWhetherKept?: boolean;
}

/** What a source hands its messages to. */
export interface Sink<Ticket> {
  /** Decodes the message and queues what it says; its ticket comes back after the commit. @returns how many readings. */
  take(message: Inbound, ticket: Ticket): number;
  /** Queues a ticket that has nothing to commit, in its order. */
  pass(ticket: Ticket): void;
  /** Keeps a foreign message for a person to look at, and does nothing else with it. */
  show(topic: string, payload: Buffer, isRetained: boolean): void;
  hasRoom(): boolean;
  whenRoom(callback: () => void): void;
  refuse(error: ReadingError, topic: string, payload: Uint8Array | string): void;
}

/** What the server says itself. */
export interface Outgoing {
  readonly topic: string;
  readonly text: string;
  /** Kept by the broker for whoever comes later; an empty text takes away what it kept. */
  readonly retain: boolean;
}

export interface SourceContext {
  readonly root: string;
  readonly clock: Clock;
  readonly log: IngestLog;
}

export interface Source<Ticket> {
  readonly url: string;
  /** The same under TLS, where it is offered. */
  readonly tlsUrl?: string | undefined;
  acknowledge(tickets: readonly Ticket[]): void;
  health(): SourceHealth;
  /** Hears these foreign topics from now on, and no others. */
  setForeign(filters: readonly ForeignFilter[]): void;
  /** Hears a foreign topic filter for a while, so that a person can see what is there. */
  listen(filter: string, forMs: number): Promise<void>;
  /** Publishes for whoever listens, about this site; a broker that is away never hears of it. */
  say(site: string, message: Outgoing): void;
  /** Stops taking messages; acknowledgements still go out. */
  pause(): Promise<void>;
  close(): Promise<void>;
}
