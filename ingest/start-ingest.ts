/**
 * The way in. Joins a broker, the decoders and the commit queue. It never acknowledges a message before its readings
 * are kept, and throws over nothing that comes in.
 */
import type { z } from 'zod';
import type { Clock } from '../shared/clock.ts';
import type { foreignMessageSchema, MappingInput, RefusalsAnswer } from '../shared/contracts/ingest.ts';
import { toInstant } from '../shared/contracts/time.ts';
import type { RefusalReason } from '../shared/errors.ts';
import type { Quantity } from '../shared/quantity.ts';
import type { Reading } from '../shared/reading.ts';
import type { ReadingsStore } from '../shared/store/readings-store.ts';
import type { OutsideBrokerOptions, OutsideTicket } from './client/outside-broker.ts';
import type { DefaultSessionFacts, SiteSessions } from './client/site-sessions.ts';
import { createCommitOutcomes } from './commit/commit-outcomes.ts';
import { type CommitQueue, createCommitQueue } from './commit/commit-queue.ts';
import type { ForeignFilter, IngestLog, Sink, Source, SourceContext, SourceHealth } from './commit/inbound-source.ts';
import { createIntake, type IntakeOptions } from './commit/intake.ts';
import { createPowerOnGuard } from './decode/power-on-guard.ts';
import { createRefusals } from './decode/refusals.ts';
import { airAheadFilter } from './decode/topic.ts';
import type { DeviceFacts } from './devices/device-memory.ts';
import { recogniseDevices } from './devices/recognise-devices.ts';
import type { EmbeddedBrokerOptions } from './embedded-broker/embedded-broker.ts';
import { createForeignMessages } from './mapping/foreign-messages.ts';
import { type MappingTrial, mappingProblem, tryMapping } from './mapping/mapping.ts';
import { filterProblem, matchFilter } from './mapping/topic-filter.ts';

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
  foreignMessages(filter?: string): ForeignMessageAnswer[];
  /** With an outside broker, hears this filter for a while; the embedded one hears everything. @throws {RangeError} */
  listen(filter: string, forMs: number): Promise<void>;
  /** Publishes for sirens, lamps and whoever else listens; the broker keeps it (retained). */
  keep(topic: string, text: string): void;
  /** What a mapping would make of the last foreign messages. */
  tryMapping(mapping: MappingInput): MappingTrial;
  /** Whether all that came in so far is kept, after waiting a while for it. */
  settled(withinMs: number): Promise<boolean>;
  /** Recalls what the probes last measured, as another process took it in. */
  recall(): Promise<void>;
  /** Commits and acknowledges what has come in, then ends. */
  close(): Promise<void>;
}

/** With the way to hold sites one by one. */
export interface SiteIngest extends Ingest {
  readonly sites: SiteSessions;
}

/** How long closing waits for the store to take what has come in. */
const closingMs = 5_000;

/** @throws {ConfigError} When the port is taken or the address cannot be used. */
export async function startIngest(options: IngestOptions): Promise<Ingest> {
  const { source } = options;
  // A broker's own code and a client's are large, and a server needs one of them.
  if (source.kind === 'embedded') {
    const { openEmbeddedBroker } = await import('./embedded-broker/embedded-broker.ts');
    return run(options, (context, sink) => openEmbeddedBroker(source, context, sink));
  }
  const { openOutsideBroker } = await import('./client/outside-broker.ts');
  return run(options, async (context, sink) => openOutsideBroker(source, context, sink));
}

/** The way in of one worker among several: it hears the sites it holds. @throws {ConfigError} */
export async function startSiteIngest(
  options: Omit<IngestOptions, 'source'>,
  source: OutsideBrokerOptions,
  defaultSession: DefaultSessionFacts,
): Promise<SiteIngest> {
  const { openSiteSessions } = await import('./client/site-sessions.ts');
  let sites: SiteSessions | undefined;
  const ingest = await run(options, async (context, sink: Sink<OutsideTicket>) => {
    sites = openSiteSessions(source, context, sink, defaultSession);
    return sites;
  });
  if (!sites) throw new Error('Cannot hold sites as the way in must be open');
  return { ...ingest, sites };
}

async function run<Ticket>(
  options: Omit<IngestOptions, 'source'>,
  open: (context: SourceContext, sink: Sink<Ticket>) => Promise<Source<Ticket>>,
): Promise<Ingest> {
  const { store, clock, root, log } = options;
  const counted = { received: 0, acked: 0 };
  const refusals = createRefusals(clock);
  const foreign = createForeignMessages();
  const powerOn = createPowerOnGuard();
  let mappings = workingMappings(options.mappings, log);
  let storeProblem = '';

  const onStatus = guarded('onStatus', log, options.onStatus);
  const devices =
    options.recognisesDevices === false
      ? undefined
      : recogniseDevices({
          onStatus,
          root,
          // Devices introduce themselves many at a time, all at once where a broker kept it.
          filtersChanged: () => soon(() => opened.setForeign(foreignFilters())),
          onDevice: guarded('onDevice', log, (site, probe, facts) => options.onDevice?.(site, probe, facts)),
        });
  const foreignFilters = (): ForeignFilter[] => [
    ...(options.onAirAhead ? [{ filter: airAheadFilter(root), qos: 1 as const, isOptional: true }] : []),
    ...(devices?.filters() ?? []).map(({ filter, timed }) => ({
      filter,
      qos: timed === true ? (1 as const) : (0 as const),
      isOptional: true,
    })),
    // Last, so that a filter that somebody wrote counts as they meant it.
    ...mappings.map(({ filter }) => ({ filter, qos: 1 as const, isOptional: false })),
  ];

  const soon = once(100);

  const intake = createIntake({
    root,
    clock,
    refusals,
    powerOn,
    foreign,
    mappings: () => mappings,
    calibrate: options.calibrate,
    admits: options.admits,
    onStatus,
    onAirAhead: options.onAirAhead,
    devices,
  });
  const outcomes = createCommitOutcomes({
    root,
    clock,
    refusals,
    onCommitted: guarded('onCommitted', log, options.onCommitted),
  });

  const queue: CommitQueue<Ticket> = createCommitQueue<Ticket>({
    store,
    ...(options.capacity === undefined ? {} : { capacity: options.capacity }),
    committed: outcomes.committed,
    acknowledge(tickets) {
      counted.acked += tickets.length;
      opened.acknowledge(tickets);
    },
    failed(error, retryAfterMs) {
      storeProblem = error instanceof Error ? error.message : String(error);
      log.error({ err: error, retryAfterMs }, 'readings could not be stored; nothing was acknowledged, trying again');
    },
    recovered() {
      storeProblem = '';
      log.info({}, 'readings are stored again');
    },
  });

  const sink: Sink<Ticket> = {
    take(message, ticket) {
      counted.received += 1;
      const readings = intake(message);
      queue.add(readings, ticket, message.topic.length + message.payload.length);
      return readings.length;
    },
    pass: (ticket) => queue.add([], ticket),
    show: (topic, payload) => foreign.keep({ atMs: clock.nowMs(), topic, payload: payload.toString('utf8') }),
    hasRoom: queue.hasRoom,
    whenRoom: queue.whenRoom,
    refuse: refusals.count,
  };

  await recallTemperatures(store, powerOn, log);
  const opened = await open({ root, clock, log }, sink);
  opened.setForeign(foreignFilters());

  return {
    url: opened.url,
    tlsUrl: opened.tlsUrl,
    health() {
      if (!queue.failing()) return opened.health();
      const { messages } = queue.waiting();
      return {
        state: 'down',
        detail: `Readings cannot be stored (${storeProblem}); ${messages} messages wait unacknowledged`,
      };
    },
    counters: () => ({ ...counted, ...outcomes.counted, refused: refusals.counts() }),
    refusals: refusals.answer,
    setMappings(next) {
      mappings = workingMappings(next, log);
      opened.setForeign(foreignFilters());
    },
    foreignMessages: (filter) =>
      foreign
        .list()
        .filter(({ topic }) => filter === undefined || matchFilter(filter, topic) !== undefined)
        .map(({ atMs, topic, payload }) => ({ at: toInstant(atMs), topic, payload })),
    keep: (topic, text) => opened.keep(topic, text),
    async listen(filter, forMs) {
      const problem = filterProblem(filter);
      if (problem !== undefined) throw new RangeError(`Cannot listen to ${JSON.stringify(filter)} as it ${problem}`);
      await opened.listen(filter, forMs);
    },
    tryMapping: (mapping) => tryMapping(mapping, foreign.list()),
    settled: (withinMs) => queue.drain(withinMs),
    recall: () => recallTemperatures(store, powerOn, log),
    async close() {
      soon.stop();
      await opened.pause();
      await queue.drain(closingMs);
      queue.stop();
      await opened.close();
    },
  };
}

/** So that a probe at a true 85 °C is believed at once after a restart. */
async function recallTemperatures(
  store: Pick<ReadingsStore, 'lasts'>,
  powerOn: ReturnType<typeof createPowerOnGuard>,
  log: IngestLog,
): Promise<void> {
  try {
    for (const { site, probe, quantity, value, atMs } of await store.lasts()) {
      if (quantity === 'temperature') powerOn.remember(site, probe, value, atMs);
    }
  } catch (error) {
    log.warn(
      { err: error },
      'could not recall the last temperatures; an isolated 85 °C is refused until the next reading',
    );
  }
}

/** Calls the last that was asked for within a while, and no other. */
function once(withinMs: number): ((call: () => void) => void) & { stop(): void } {
  let timer: NodeJS.Timeout | undefined;
  const later = (call: () => void) => {
    clearTimeout(timer);
    timer = setTimeout(call, withinMs).unref();
  };
  return Object.assign(later, { stop: () => clearTimeout(timer) });
}

function workingMappings(mappings: readonly MappingInput[], log: IngestLog): readonly MappingInput[] {
  return mappings.filter((mapping) => {
    const problem = mappingProblem(mapping);
    if (problem !== undefined) log.error({ mapping, problem }, 'a mapping cannot work and is left out');
    return problem === undefined;
  });
}

/** A fault of a listener is its own: it must not hold back acknowledgements. */
function guarded<Args extends unknown[]>(
  name: string,
  log: IngestLog,
  call: (...args: Args) => void,
): (...args: Args) => void {
  return (...args) => {
    try {
      call(...args);
    } catch (error) {
      log.error({ err: error }, `${name} failed`);
    }
  };
}
