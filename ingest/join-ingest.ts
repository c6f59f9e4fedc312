/** Joins a broker, the decoders and the commit queue: every message goes through all three. */

import type { HeardMessage } from '../shared/contracts/ingest.ts';
import type { MappingInput } from '../shared/contracts/mappings.ts';
import { toInstant } from '../shared/contracts/time.ts';
import { message } from '../shared/messages/message.ts';
import { partHealth } from '../shared/part-health.ts';
import { isNoProbesTopic } from '../shared/published-topics.ts';
import type { SeriesLast } from '../shared/store/readings-store.ts';
import { type CommitOutcomes, createCommitOutcomes } from './commit/commit-outcomes.ts';
import { CommitQueue } from './commit/commit-queue.ts';
import { isAbout, readLast } from './commit/foreign-intake.ts';
import { guarded } from './commit/guarded.ts';
import type { Sink, Source, SourceContext, SourceHealth } from './commit/inbound-source.ts';
import { createIntake } from './commit/intake.ts';
import { keepableReadings } from './commit/keepable-readings.ts';
import { recallTemperatures, recallTemperaturesOf } from './commit/recall-temperatures.ts';
import { StoreTrouble } from './commit/store-trouble.ts';
import { createPowerOnGuard } from './decode/power-on-guard.ts';
import { createRefusals, type Refusals } from './decode/refusals.ts';
import { ForeignTopics } from './foreign-topics.ts';
import type { FirstMessage, Ingest, IngestOptions } from './ingest.ts';
import { createForeignMessages, type ForeignMessage, type ForeignMessages } from './mapping/foreign-messages.ts';
import { MappedAvailability } from './mapping/mapped-availability.ts';
import { contentOf } from './mapping/message-content.ts';
import { filterProblem, matchFilter } from './mapping/topic-filter.ts';
import { tryMapping } from './mapping/try-mapping.ts';

/** How long closing waits for the store to take what has come in. */
const closingMs = 5_000;

/** All that is joined. */
interface Joined<Ticket> {
  readonly source: Source<Ticket>;
  readonly queue: CommitQueue<Ticket | typeof nobody>;
  readonly trouble: StoreTrouble;
  readonly outcomes: CommitOutcomes;
  readonly refusals: Refusals;
  readonly foreign: ForeignMessages;
  readonly topics: ForeignTopics;
  /** Messages. */
  readonly counted: { received: number; acked: number };
  readonly heard: { first: FirstMessage | undefined };
  recall(lasts: readonly SeriesLast[]): void;
  readLast(mappings: readonly MappingInput[]): void;
}

/** Waits for no acknowledgement: the message was acknowledged before it could be read. */
const nobody = Symbol('nobody');

/**
 * @param open Opens the broker, which hands every message to the sink.
 * @param sites Whose last temperatures are known from the start; all unless given.
 */
export async function joinIngest<Ticket>(
  options: Omit<IngestOptions, 'source'>,
  open: (context: SourceContext, sink: Sink<Ticket>) => Promise<Source<Ticket>>,
  sites?: readonly string[],
): Promise<Ingest> {
  const { store, clock, root, log } = options;
  const counted = { received: 0, acked: 0 };
  const heard: Joined<Ticket>['heard'] = { first: undefined };
  const refusals = createRefusals(clock);
  const foreign = createForeignMessages();
  const powerOn = createPowerOnGuard();
  const trouble = new StoreTrouble(log);
  const onCommitted = guarded('onCommitted', log, options.onCommitted);
  const outcomes = createCommitOutcomes({ root, clock, refusals, onCommitted });
  const queue = new CommitQueue<Ticket | typeof nobody>({
    store,
    ...(options.capacity === undefined ? {} : { capacity: options.capacity }),
    committed: outcomes.committed,
    acknowledge(tickets) {
      const waiting = tickets.filter((ticket): ticket is Ticket => ticket !== nobody);
      counted.acked += waiting.length;
      source.acknowledge(waiting);
    },
    failed: (error, retryAfterMs) => trouble.failed(error, retryAfterMs),
    recovered: () => trouble.recovered(),
  });
  const topics = topicsOf(options, () => source.setForeign(topics.filters()));
  const { sink, readLast } = sinkOf(options, { counted, heard, queue, refusals, foreign, topics, powerOn });

  await recallTemperaturesOf(sites, store, powerOn, log);
  const recall = (lasts: readonly SeriesLast[]) => recallTemperatures(lasts, powerOn);
  const source = await open({ root, clock, log }, sink);
  source.setForeign(topics.filters());
  return ingestOf({ source, queue, trouble, outcomes, refusals, foreign, topics, counted, heard, recall, readLast });
}

function topicsOf(options: Omit<IngestOptions, 'source'>, changed: () => void): ForeignTopics {
  const { root, log, mappings, recognisesDevices = true } = options;
  return new ForeignTopics({
    root,
    log,
    mappings,
    recognisesDevices,
    hearsAirAhead: options.onAirAhead !== undefined,
    hearsHubs: options.hubs !== undefined,
    onStatus: guarded('onStatus', log, options.onStatus),
    onDevice: guarded('onDevice', log, (site, probe, facts) => options.onDevice?.(site, probe, facts)),
    changed,
  });
}

/** What the broker hands its messages to: decoded, and queued for the commit after which each is acknowledged. */
function sinkOf<Ticket>(
  options: Omit<IngestOptions, 'source'>,
  parts: Pick<Joined<Ticket>, 'counted' | 'heard' | 'queue' | 'refusals' | 'foreign' | 'topics'> & {
    readonly powerOn: ReturnType<typeof createPowerOnGuard>;
  },
): { readonly sink: Sink<Ticket>; readonly readLast: Joined<Ticket>['readLast'] } {
  const { root, clock, log, calibrate, admits, onAirAhead, hubs } = options;
  const { counted, heard, queue, refusals, foreign, topics, powerOn } = parts;
  const reading = {
    root,
    clock,
    refusals,
    powerOn,
    foreign,
    mappings: () => topics.mappings(),
    availability: new MappedAvailability(guarded('onStatus', log, options.onStatus)),
    calibrate,
    admits,
    onStatus: guarded('onStatus', log, options.onStatus),
    onAirAhead,
    hubs,
    devices: topics.devices,
  };
  const intake = createIntake(reading);
  const sink: Sink<Ticket> = {
    take(message, ticket) {
      counted.received += 1;
      heard.first ??= { at: toInstant(clock.nowMs()), topic: message.topic };
      const readings = intake(message);
      queue.add(readings, ticket, message.topic.length + message.payload.length);
      return readings.length;
    },
    pass: (ticket) => queue.add([], ticket),
    show(topic, payload, isRetained) {
      if (isNoProbesTopic(topic, root)) return; // it would be offered to be read as a device's
      foreign.keep({
        atMs: clock.nowMs(),
        topic,
        payload: payload.toString('utf8'),
        isRetained,
        site: undefined,
        isUsed: topics.mappings().some((mapping) => isAbout(mapping, topic)),
      });
    },
    hasRoom: () => queue.hasRoom(),
    whenRoom: (callback) => queue.whenRoom(callback),
    refuse: refusals.count,
  };
  return {
    sink,
    readLast(mappings) {
      for (const mapping of mappings) {
        for (const last of foreign.list().filter(({ topic }) => isAbout(mapping, topic))) {
          const { readings, message } = readLast(reading, mapping, last);
          queue.add(keepableReadings(reading, readings, message), nobody);
        }
      }
    },
  };
}

function ingestOf<Ticket>(joined: Joined<Ticket>): Ingest {
  const { source, queue, outcomes, refusals, foreign, topics, counted, heard, recall, readLast } = joined;
  return {
    url: source.url,
    tlsUrl: source.tlsUrl,
    health: () => healthOf(joined),
    counters: () => ({ ...counted, ...outcomes.counted, refused: refusals.counts() }),
    refusals: refusals.answer,
    setMappings: (mappings) => readLast(topics.setMappings(mappings)),
    foreignMessages: (filter) =>
      foreign
        .list()
        .filter(({ topic }) => filter === undefined || matchFilter(filter, topic) !== undefined)
        .map(heardMessage),
    unusedMessages: () =>
      foreign
        .list()
        .filter(({ isUsed }) => !isUsed)
        .map(shownMessage),
    firstMessage: () => heard.first,
    keep: (topic, text) => source.say(topic.split('/')[1] ?? '', { topic, text, retain: true }),
    say: (site, message) => source.say(site, message),
    async listen(filter, forMs) {
      const problem = filterProblem(filter);
      if (problem !== undefined) throw new RangeError(`Cannot listen to ${JSON.stringify(filter)} as it ${problem}`);
      await source.listen(filter, forMs);
    },
    tryMapping: (mapping) => tryMapping(mapping, foreign.list()),
    settled: (withinMs) => queue.drain(withinMs),
    recall,
    async close() {
      topics.stop();
      await source.pause();
      await queue.drain(closingMs);
      queue.stop();
      await source.close();
    },
  };
}

const shownMessage = ({ atMs, topic, payload }: ForeignMessage) => ({ at: toInstant(atMs), topic, payload });

const heardMessage = (message: ForeignMessage): HeardMessage => ({
  ...shownMessage(message),
  isRetained: message.isRetained,
  isUsed: message.isUsed,
  site: message.site ?? null,
  content: contentOf(message.topic, message.payload),
});

function healthOf<Ticket>({ source, queue, trouble }: Joined<Ticket>): SourceHealth {
  if (!queue.failing()) return source.health();
  const waiting = { problemText: trouble.problem, waitingCount: queue.waiting().messages };
  return partHealth('down', message('health.broker.not-stored', waiting));
}
