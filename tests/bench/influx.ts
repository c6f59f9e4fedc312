/**
 * Readings per second into InfluxDB through our store, against its bare client writing the same.
 *
 * A real InfluxDB 1.6 on loopback, a database of its own for every run.
 * Figures: influx_ratio_client: our store, batch after batch as the commit queue hands them over, against the bare client
 * at its best: a Point each, batches of the same size, unpacked, the next made while the last is under way. And
 * the same against the client as it comes, waiting for each batch. (Not waiting at all, it loses them: a hundred
 * requests at once end in broken connections.) Each of a round by itself, as its runs find the machine equally
 * busy; medians of those.
 */
import { InfluxDB, Point } from '@influxdata/influxdb-client';
import type { Reading } from '../../shared/reading.ts';
import { type KnownInflux, writePath } from '../../shared/store/influx/influx-address.ts';
import { openInfluxReadings } from '../../shared/store/influx/influx-readings.ts';
import { startInflux, type TestInflux } from '../helpers/influxdb.ts';
import { median, printTable } from './table.ts';

const readingsPerRun = 500_000;
const batchReadings = 5_000;
const probes = 1_000;
const rounds = 7;
const fromMs = Date.UTC(2031, 0, 1);

export async function run(): Promise<Record<string, number>> {
  const influx = await startInflux();
  try {
    const runs: Record<'store' | 'client' | 'plain', number[]> = { store: [], client: [], plain: [] };
    await timed(influx, throughStore); // warm
    for (let round = 0; round < rounds; round += 1) {
      runs.store.push(await timed(influx, throughStore));
      runs.client.push(await timed(influx, (address) => throughClient(address, true)));
      runs.plain.push(await timed(influx, (address) => throughClient(address, false)));
    }
    const ratio = (of: 'client' | 'plain') =>
      median(runs.store.map((perS, round) => perS / (runs[of][round] ?? Number.NaN)));
    const figures = {
      influx_ratio_client: ratio('client'),
      influx_ratio_plain_client: ratio('plain'),
      influx_store_per_s: Math.round(median(runs.store)),
      influx_client_per_s: Math.round(median(runs.client)),
      influx_plain_client_per_s: Math.round(median(runs.plain)),
    };
    console.log(
      `${readingsPerRun} readings of ${probes} probes in batches of ${batchReadings}, ${rounds} runs each in turn`,
    );
    printTable([
      ['our store', figures.influx_store_per_s, 'readings/s'],
      ['bare client at its best', figures.influx_client_per_s, 'readings/s'],
      ['bare client as it comes', figures.influx_plain_client_per_s, 'readings/s'],
      ['our store over the bare client', figures.influx_ratio_client, ''],
      ['our store over the client as it comes', figures.influx_ratio_plain_client, ''],
    ]);
    return figures;
  } finally {
    await influx.remove();
  }
}

/** Batches as they come from JSON: every string and object new. */
function batchFrom(first: number): Reading[] {
  const readings = Array.from({ length: batchReadings }, (_, index) => {
    const place = first + index;
    return {
      site: 'saltmere-yard',
      probe: `probe-${place % probes}`,
      quantity: 'temperature' as const,
      value: 20 + Math.round(100 * Math.sin(place / 229)) / 10,
      atMs: fromMs + Math.floor(place / probes) * 60_000,
    };
  });
  return JSON.parse(JSON.stringify(readings));
}

/** Readings per second, and a look whether all of them are there. */
async function timed(
  influx: TestInflux,
  write: (address: KnownInflux) => Promise<(batches: readonly Reading[][]) => Promise<void>>,
): Promise<number> {
  const address = await influx.newDatabase();
  const batches = Array.from({ length: readingsPerRun / batchReadings }, (_, index) =>
    batchFrom(index * batchReadings),
  );
  const work = await write(address);
  const startMs = performance.now();
  await work(batches);
  const tookMs = performance.now() - startMs;
  const store = await openInfluxReadings(address);
  const { rows } = await store.size();
  await store.close();
  if (rows !== readingsPerRun) throw new Error(`${rows} of ${readingsPerRun} readings are there`);
  await influx.ask(`DROP DATABASE "${address.bucket}"`);
  return (1000 * readingsPerRun) / tookMs;
}

async function throughStore(address: KnownInflux) {
  const store = await openInfluxReadings(address);
  return async (batches: readonly Reading[][]) => {
    for (const batch of batches) await store.append(batch);
    await store.close();
  };
}

async function throughClient(address: KnownInflux, atItsBest: boolean) {
  const api = new InfluxDB({ url: address.url }).getWriteApi('', address.bucket, 'ms', {
    batchSize: batchReadings + 1,
    ...(atItsBest && { gzipThreshold: Number.POSITIVE_INFINITY }),
  });
  api.path = writePath(address);
  return async (batches: readonly Reading[][]) => {
    let underWay = Promise.resolve();
    for (const batch of batches) {
      for (const { site, probe, quantity, value, atMs } of batch) {
        api.writePoint(
          new Point(quantity).tag('site', site).tag('probe', probe).floatField('value', value).timestamp(atMs),
        );
      }
      await underWay;
      underWay = api.flush();
      if (!atItsBest) await underWay;
    }
    await underWay;
    await api.close();
  };
}
