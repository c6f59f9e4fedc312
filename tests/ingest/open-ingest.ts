/** An Ingest on a store in memory, with what it said along the way. */
import type { Ingest, IngestOptions } from '../../ingest/ingest.ts';
import { startIngest } from '../../ingest/start-ingest.ts';
import { liveClock } from '../../shared/clock.ts';
import type { Reading } from '../../shared/reading.ts';
import { type MemoryReadingsStore, memoryReadingsStore } from '../helpers/memory-readings-store.ts';

export interface OpenIngest {
  readonly ingest: Ingest;
  readonly store: MemoryReadingsStore;
  readonly committed: Reading[];
  /** site/probe online|offline, in order. */
  readonly statuses: string[];
  /** Messages logged as warnings and errors. */
  readonly logged: string[];
}

export async function openIngest(
  source: IngestOptions['source'],
  change: Partial<IngestOptions> & { store?: MemoryReadingsStore } = {},
): Promise<OpenIngest> {
  const store = change.store ?? memoryReadingsStore();
  const committed: Reading[] = [];
  const statuses: string[] = [];
  const logged: string[] = [];
  const log = (_fields: object, message: string) => logged.push(message);
  const ingest = await startIngest({
    clock: liveClock,
    root: 'piles',
    source,
    mappings: [],
    calibrate: (_site, _probe, _quantity, value) => value,
    admits: () => true,
    onCommitted: (readings) => committed.push(...readings),
    onStatus: (site, probe, online) => statuses.push(`${site}/${probe} ${online ? 'online' : 'offline'}`),
    log: { info() {}, warn: log, error: log },
    ...change,
    store,
  });
  return { ingest, store, committed, statuses, logged };
}

/** Whether a promise is still open after a moment long enough for a round trip on this machine. */
export async function stillOpen(promise: Promise<unknown>, afterMs = 150): Promise<boolean> {
  const later = new Promise<'later'>((resolve) => setTimeout(() => resolve('later'), afterMs));
  return (await Promise.race([promise.then(() => 'settled'), later])) === 'later';
}
