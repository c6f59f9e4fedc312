/** What the way in is given and offers. */
import type { z } from 'zod';
import type { Clock } from '../shared/clock.ts';
import type { foreignMessageSchema, HeardMessage, RefusalsAnswer } from '../shared/contracts/ingest.ts';
import type { MappingInput, MappingTrial } from '../shared/contracts/mappings.ts';
import type { RefusalReason } from '../shared/errors.ts';
import type { Quantity } from '../shared/quantity.ts';
import type { Reading } from '../shared/reading.ts';
import type { ReadingsStore, SeriesLast } from '../shared/store/readings-store.ts';
import type { OutsideBrokerOptions } from './client/outside-options.ts';
import type { SiteSessions } from './client/site-sessions.ts';
import type { IngestLog, Outgoing, SourceHealth } from './commit/inbound-source.ts';
import type { IntakeOptions } from './commit/intake.ts';
import type { DeviceFacts } from './devices/device-memory.ts';
import type { EmbeddedBrokerOptions } from './embedded-broker/embedded-broker.ts';

export interface IngestOptions {
  readonly store: Pick<ReadingsStore, 'append' | 'lasts'>;
  readonly clock: Clock;
  /** First level of the topics. */
  readonly root: string;
  readonly source:
    | ({ readonly kind: 'embedded' } & EmbeddedBrokerOptions)
    | ({ readonly kind: 'outside' } & OutsideBrokerOptions);
  readonly mappings: readonly MappingInput[];
  /** Whether devices of common families are read without a mapping; yes when absent. */
  readonly recognisesDevices?: boolean;
  /** The value to keep instead of the measured one. */
  calibrate(site: string, probe: string, quantity: Quantity, value: number): number;
  /** Whether anything of this probe may be kept; asked before each reading and status. */
  admits(site: string, probe: string): boolean;
  /** Called after the commit with what was new only; must be quick. */
  onCommitted(readings: readonly Reading[], atMs: number): void;
  onStatus(site: string, probe: string, online: boolean, atMs: number): void;
  onAirAhead?: IntakeOptions['onAirAhead'];
  /** What home automation hubs say to us; absent where another process listens to them. */
  readonly hubs?: IntakeOptions['hubs'];
  /** A device that was recognised by itself spoke for the first time since the start. */
  onDevice?(site: string, probe: string, facts: DeviceFacts): void;
  readonly log: IngestLog;
  /** Most readings and messages in memory that wait for the store; 50,000 when absent. */
  readonly capacity?: number;
}

interface IngestCounters {
  /** Messages, those at QoS 0 included. */
  readonly received: number;
  /** Messages whose fate is final: kept, or refused for good. */
  readonly acked: number;
  /** Readings. */
  readonly stored: number;
  readonly duplicates: number;
  readonly refused: Record<RefusalReason, number>;
  readonly batches: number;
}

export interface FirstMessage {
  readonly at: string;
  readonly topic: string;
}

type ForeignMessageAnswer = z.infer<typeof foreignMessageSchema>;

export interface Ingest {
  /** Where a probe publishes to. */
  readonly url: string;
  /** The same under TLS, where the embedded broker offers it. */
  readonly tlsUrl: string | undefined;
  health(): SourceHealth;
  counters(): IngestCounters;
  refusals(): RefusalsAnswer;
  /** Replaces the mappings in force. One that cannot work is left out and logged; ask `mappingProblem` before saving. */
  setMappings(mappings: readonly MappingInput[]): void;
  /** The last message of each foreign topic, newest first. */
  foreignMessages(filter?: string): HeardMessage[];
  /** Of those, what neither a mapping nor a family of devices made anything of. */
  unusedMessages(): ForeignMessageAnswer[];
  /** The first that came since the start, on whatever topic. */
  firstMessage(): FirstMessage | undefined;
  /** With an outside broker, hears this filter for a while; the embedded one hears everything. @throws {RangeError} */
  listen(filter: string, forMs: number): Promise<void>;
  /** Publishes for sirens, lamps and whoever else listens; the broker keeps it (retained). */
  keep(topic: string, text: string): void;
  /** Publishes about a site; where several processes share the farm, by whoever holds that. */
  say(site: string, message: Outgoing): void;
  /** What a mapping would make of the last foreign messages. */
  tryMapping(mapping: MappingInput): MappingTrial;
  /** Whether all that came in so far is kept, after waiting a while for it. */
  settled(withinMs: number): Promise<boolean>;
  /** Recalls what probes last measured, as another process took it in. */
  recall(lasts: readonly SeriesLast[]): void;
  /** Commits and acknowledges what has come in, then ends. */
  close(): Promise<void>;
}

/** With the way to hold sites one by one. */
export interface SiteIngest extends Ingest {
  readonly sites: SiteSessions;
}
