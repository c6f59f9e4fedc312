import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Reading } from '../../../shared/reading.ts';
import { authPatience } from '../../../shared/store/influx/influx-client.ts';
import { openInfluxReadings } from '../../../shared/store/influx/influx-readings.ts';
import { latestInfluxMs } from '../../../shared/store/influx/line-protocol.ts';
import { hasTestInflux, openTestInflux, testInfluxGeneration, testInfluxName } from '../../helpers/given-influx.ts';
import type { TestInflux } from '../../helpers/influxdb.ts';
import { downsampleWhole, readingsStoreContract } from './readings-store-contract.ts';

const contractBounds = {
  1: { latestMs: latestInfluxMs },
  2: { latestMs: latestInfluxMs, tellsBytes: false },
  3: { latestMs: latestInfluxMs, tellsBytes: false, downsamples: false },
};

describe.skipIf(!hasTestInflux)(testInfluxName, () => {
  let influx: TestInflux;
  beforeAll(async () => {
    influx = await openTestInflux();
  });
  afterAll(() => influx.remove());

  readingsStoreContract(
    'readings in InfluxDB',
    async () => {
      const address = await influx.newDatabase();
      let store = await openInfluxReadings(address);
      return {
        store,
        reopen: async () => {
          await store.close();
          store = await openInfluxReadings(address);
          return store;
        },
      };
    },
    contractBounds[testInfluxGeneration],
  );

  const hourMs = 3_600_000;
  const reading = (atMs: number, value: number): Reading => ({
    site: 'saltmere-yard',
    probe: 'bran-core',
    quantity: 'temperature',
    atMs,
    value,
  });

  for (const [when, startMs] of [
    ['long ago', Date.UTC(2021, 0, 1)],
    ['just now', Date.now() - 30 * hourMs],
    ['over the edge of what spoke lately', Date.now() - 60 * hourMs],
  ] as const) {
    test(`opened again it knows the first and the newest of a series that spoke ${when}`, async () => {
      const address = await influx.newDatabase();
      const first = await openInfluxReadings(address);
      // hour by hour, so that the note of the series lags behind
      for (let hour = 0; hour <= 29; hour += 1) await first.append([reading(startMs + hour * hourMs, hour)]);
      await first.close();
      const again = await openInfluxReadings(address);
      expect(await again.lasts()).toEqual([{ ...reading(startMs + 29 * hourMs, 29), firstAtMs: startMs }]);
      const batch = [
        reading(startMs + 29 * hourMs, 29),
        reading(startMs + 28 * hourMs, 1),
        reading(startMs - hourMs, 7),
      ];
      expect([...(await again.append(batch)).outcomes]).toEqual([2, 3, 1]);
      await again.close();
      const third = await openInfluxReadings(address);
      expect((await third.lasts())[0]).toMatchObject({ firstAtMs: startMs - hourMs, atMs: startMs + 29 * hourMs });
      await third.close();
    });
  }

  test('it finds the series of a database that has rows but no notes', async () => {
    const address = await influx.newDatabase();
    const first = await openInfluxReadings(address);
    await first.append([reading(5, 1), reading(3, 2)]);
    await first.close();
    await influx.ask('DROP MEASUREMENT "series"', address);
    const again = await openInfluxReadings(address);
    expect(await again.lasts()).toEqual([{ ...reading(5, 1), firstAtMs: 3 }]);
    expect([...(await again.append([reading(5, 1), reading(3, 2), reading(4, 1)])).outcomes]).toEqual([2, 2, 1]);
    await again.close();
  });

  test('a process that takes a series over knows what the one before kept, and since when', async () => {
    const address = await influx.newDatabase();
    const [before, after] = [await openInfluxReadings(address), await openInfluxReadings(address)];
    const nowMs = Date.now();
    await after.append([{ ...reading(nowMs, 1), probe: 'other' }]); // so that there are notes at its next look
    await after.lasts();
    await before.append([reading(nowMs - hourMs, 1), reading(nowMs, 2)]);
    expect(await after.lasts()).toContainEqual({ ...reading(nowMs, 2), firstAtMs: nowMs - hourMs });
    expect([...(await after.append([reading(nowMs, 2), reading(nowMs - hourMs, 3)])).outcomes]).toEqual([2, 3]);
    // an earlier season comes in by another client, and stays noted when the note is renewed
    await before.append([reading(nowMs - 900 * hourMs, 4)]);
    await after.append([reading(nowMs + 20 * hourMs, 5)]);
    const third = await openInfluxReadings(address);
    expect(await third.lasts()).toContainEqual({ ...reading(nowMs + 20 * hourMs, 5), firstAtMs: nowMs - 900 * hourMs });
    await Promise.all([before.close(), after.close(), third.close()]);
  });

  test('one that knows no series from the start opens those of a site when it is asked for, and takes nothing kept for new', async () => {
    const address = await influx.newDatabase();
    const elsewhere = { ...reading(5 * hourMs, 50), site: 'saltmere-terrace' };
    const first = await openInfluxReadings(address);
    await first.append([reading(hourMs, 1), reading(2 * hourMs, 2), elsewhere]);
    await downsampleWhole(first, hourMs);
    await first.close();
    const [worker, other] = await Promise.all([
      openInfluxReadings(address, authPatience, 'none'),
      openInfluxReadings(address, authPatience, 'none'),
    ]);
    expect(await worker.lasts([])).toEqual([]);
    expect(await worker.lasts(['saltmere-yard'])).toEqual([{ ...reading(2 * hourMs, 2), firstAtMs: hourMs }]);
    // a site that comes in although it was never asked for
    const batch = [reading(2 * hourMs, 2), reading(hourMs, 9), elsewhere, { ...elsewhere, atMs: 4 * hourMs }];
    expect([...(await other.append(batch)).outcomes]).toEqual([2, 3, 2, 1]);
    // and what another process kept since is known where the site is asked for again
    await other.append([reading(7 * hourMs, 7)]);
    expect((await worker.lasts(['saltmere-yard']))[0]).toMatchObject({ atMs: 7 * hourMs, value: 7 });
    expect(await worker.lasts()).toHaveLength(2);
    await Promise.all([worker.close(), other.close()]);
  });

  test('one that knows no series from the start reads a downsampled one as one that knows all', async () => {
    const address = await influx.newDatabase();
    const first = await openInfluxReadings(address);
    await first.append(Array.from({ length: 30 }, (_, hour) => reading(hour * hourMs, hour)));
    await downsampleWhole(first, 24 * hourMs);
    const series = [reading(0, 0)];
    const wanted = await first.rows(series, 0, 100 * hourMs, 100);
    for (const ask of ['rows', 'buckets', 'rawFrom'] as const) {
      const worker = await openInfluxReadings(address, authPatience, 'none');
      if (ask === 'rows') expect(await worker.rows(series, 0, 100 * hourMs, 100)).toEqual(wanted);
      if (ask === 'rawFrom') expect(await worker.rawFrom(series)).toBe(24 * hourMs);
      if (ask === 'buckets') {
        expect(await worker.buckets(series, 0, 30 * hourMs, 10)).toEqual(
          await first.buckets(series, 0, 30 * hourMs, 10),
        );
      }
      expect([...(await worker.append([reading(hourMs, 1)])).outcomes]).toEqual([4]);
      await worker.close();
    }
    await first.close();
  });

  test('another process sees within its next look that readings were downsampled', async () => {
    const address = await influx.newDatabase();
    const [writer, reader] = [await openInfluxReadings(address), await openInfluxReadings(address)];
    await writer.append(Array.from({ length: 30 }, (_, hour) => reading(hour * hourMs, hour)));
    await downsampleWhole(writer, 24 * hourMs);
    await reader.lasts();
    expect(await reader.rawFrom([reading(0, 0)])).toBe(24 * hourMs);
    const rows = await reader.rows([reading(0, 0)], 0, 100 * hourMs, 100);
    expect(rows).toHaveLength(30);
    expect(rows.filter(({ standsFor }) => standsFor !== undefined)).toHaveLength(24);
    await Promise.all([writer.close(), reader.close()]);
  });
});
