/** Readings published at QoS 1 while the server is killed again and again. */
import mqtt from 'mqtt';
import { openSqliteReadings } from '../../shared/store/readings/sqlite-readings.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';

const probeCount = 20;
const startMs = Date.UTC(2021, 0, 1);
const site = 'saltmere-yard';

/** Reading number `n`: every one has a probe, a time and a value that follow from its number. */
const probeOf = (n: number) => `load-${n % probeCount}`;
const timeOf = (n: number) => startMs + Math.floor(n / probeCount) * 1000;
const readingOf = (n: number) => (n % 800) / 10;

export interface Load {
  readonly acknowledged: ReadonlySet<number>;
  sent(): number;
  /** Stops publishing and waits until everything in flight is acknowledged. */
  finish(): Promise<void>;
}

/**
 * Publishes `inFlight` messages at a time over any number of lost connections.
 * @param pauseMs Pause of each of them after it was acknowledged: a broker that takes faster than the killed server can
 *   catch up would only make the test long.
 */
export function startLoad(url: string, inFlight: number, pauseMs = 0): Load {
  const client = mqtt.connect(url, { clientId: 'load', clean: false, reconnectPeriod: 50, connectTimeout: 2_000 });
  client.on('error', () => undefined); // the broker comes and goes: that is the test
  const acknowledged = new Set<number>();
  let next = 0;
  let stopped = false;

  /** A message that was still waiting when the line broke is given back by the client: it is sent again. */
  const publishUntilTaken = async (topic: string, payload: string): Promise<void> => {
    for (;;) {
      try {
        await client.publishAsync(topic, payload, { qos: 1 });
        return;
      } catch {
        await new Promise((resolve) => setTimeout(resolve, 20));
      }
    }
  };
  const publishOne = async (): Promise<void> => {
    while (!stopped) {
      const n = next++;
      const payload = JSON.stringify({ temperature: readingOf(n), time: new Date(timeOf(n)).toISOString() });
      await publishUntilTaken(`piles/${site}/${probeOf(n)}/reading`, payload);
      acknowledged.add(n);
      if (pauseMs > 0) await new Promise((resolve) => setTimeout(resolve, pauseMs));
    }
  };
  const lines = Array.from({ length: inFlight }, publishOne);
  return {
    acknowledged,
    sent: () => next,
    async finish() {
      stopped = true;
      await Promise.all(lines);
      await client.endAsync();
    },
  };
}

/** The newest time that each probe must have reached once `sent` readings have arrived. */
export function lastTimes(sent: number): Map<string, number> {
  const times = new Map<string, number>();
  for (let n = Math.max(0, sent - probeCount); n < sent; n++) times.set(probeOf(n), timeOf(n));
  return times;
}

/** Readings in a file, by their number. */
export async function storedNumbers(readingsPath: string): Promise<Set<number>> {
  const store = openSqliteReadings(readingsPath);
  try {
    return await numbersIn(store);
  } finally {
    await store.close();
  }
}

/** Readings in the store, by their number; a number that stands there twice or with another value throws. */
export async function numbersIn(store: ReadingsStore): Promise<Set<number>> {
  const stored = new Set<number>();
  for (let probe = 0; probe < probeCount; probe++) {
    const series = [{ site, probe: probeOf(probe), quantity: 'temperature' as const }];
    for (const row of await store.rows(series, startMs, startMs + 86_400_000, 10_000_000)) {
      const n = ((row.atMs - startMs) / 1000) * probeCount + probe;
      if (stored.has(n)) throw new Error(`reading ${n} stands there twice`);
      if (row.value !== readingOf(n)) throw new Error(`reading ${n} is ${row.value}, was sent as ${readingOf(n)}`);
      stored.add(n);
    }
  }
  return stored;
}
