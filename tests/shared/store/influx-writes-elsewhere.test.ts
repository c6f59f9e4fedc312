import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { quantities } from '../../../shared/quantity.ts';
import type { Reading } from '../../../shared/reading.ts';
import { findGeneration } from '../../../shared/store/influx/find-generation.ts';
import { authPatience, InfluxClient } from '../../../shared/store/influx/influx-client.ts';
import { KnownLasts } from '../../../shared/store/influx/known-last.ts';
import { decodeName } from '../../../shared/store/influx/line-protocol.ts';
import { SortOut } from '../../../shared/store/influx/sort-out.ts';
import type { AppendResult } from '../../../shared/store/readings-store.ts';
import { hasVictoriaMetrics, startVictoriaMetrics, type TestVictoriaMetrics } from '../../helpers/victoria-metrics.ts';

// It takes nothing that lies far ahead, so these are of the last hours.
const firstMs = Math.floor(Date.now() / 60_000) * 60_000 - 12 * 3_600_000;

/** The half of our store that writes, without the half that asks. */
function writer(url: string, gzip: boolean) {
  const authPolicy = new InfluxClient(
    { url, bucket: 'piles', org: 'saltmere', generation: 2 },
    { ...authPatience, gzip },
  );
  const sortOut = new SortOut(new KnownLasts());
  return {
    async append(readings: readonly Reading[]): Promise<AppendResult> {
      sortOut.begin(readings);
      const { result, lines } = sortOut.finish(readings, new Map());
      if (result.newCount > 0) await authPolicy.write(lines);
      sortOut.kept();
      return result;
    },
    close: () => authPolicy.close(),
  };
}

describe.skipIf(!hasVictoriaMetrics)('what we write, as VictoriaMetrics understands it by /api/v2/write', () => {
  let taker: TestVictoriaMetrics;
  beforeAll(async () => {
    taker = await startVictoriaMetrics();
  });
  afterAll(() => taker.remove());

  /** Its readings of one site, as ours. */
  async function readingsOf(site: string): Promise<Reading[]> {
    const exported = await taker.everything();
    return exported
      .filter(({ metric }) => decodeName(metric.site ?? '') === site && !metric.__name__?.startsWith('series_'))
      .flatMap(({ metric, values, timestamps }) =>
        values.map((value, index) => ({
          site,
          probe: decodeName(metric.probe ?? ''),
          quantity: (metric.__name__ ?? '').replace(/_value$/, '') as Reading['quantity'],
          value,
          atMs: timestamps[index] ?? Number.NaN,
        })),
      );
  }
  const inOrder = (readings: readonly Reading[]): string[] =>
    readings
      .map(({ site, probe, quantity, value, atMs }) => JSON.stringify([site, probe, quantity, atMs, value]))
      .sort();

  for (const gzip of [false, true]) {
    const site = gzip ? 'saltmere-packed' : 'saltmere-plain';
    test(`every quantity, time in milliseconds and value arrives as it was, ${gzip ? 'packed' : 'as it stands'}`, async () => {
      const store = writer(taker.url, gzip);
      const readings = Array.from(
        { length: 10_000 },
        (_, index): Reading => ({
          site,
          probe: `p${index % 50}`,
          quantity: quantities[Math.floor(index / 50) % quantities.length] ?? 'co2',
          value: ((index * 7) % 8_000) / 8 - 200,
          atMs: firstMs + Math.floor(index / 300) * 60_000 + (index % 7),
        }),
      );
      expect(await store.append(readings)).toMatchObject({ newCount: 10_000, duplicateCount: 0 });
      expect(inOrder(await readingsOf(site))).toEqual(inOrder(readings));
      store.close();
    });
  }

  test('a batch that comes again is there once, and late readings find their place', async () => {
    const site = 'saltmere-again';
    const readings = [5, 3, 4, 1, 2].map(
      (minute): Reading => ({
        site,
        probe: 'bran-core',
        quantity: 'temperature',
        value: 20 + minute / 8,
        atMs: firstMs + minute * 60_000,
      }),
    );
    for (const store of [writer(taker.url, false), writer(taker.url, false)]) {
      expect((await store.append(readings)).newCount).toBe(5);
      expect((await store.append(readings.slice(0, 1))).newCount).toBe(0);
      store.close();
    }
    expect(inOrder(await readingsOf(site))).toEqual(inOrder(readings));
  });

  test('names of any kind stay apart', async () => {
    const site = 'salt mere,"yard"=\\';
    const store = writer(taker.url, false);
    const readings = ['a b', 'a,b', 'a=b', "a'b", 'a\\', 'a\nb', '', 'ü'].map(
      (probe, minute): Reading => ({
        site,
        probe,
        quantity: 'moisture',
        value: minute,
        atMs: firstMs + minute * 60_000,
      }),
    );
    await store.append(readings);
    expect(inOrder(await readingsOf(site))).toEqual(inOrder(readings));
    store.close();
  });

  test('it is not taken for an InfluxDB, as it would answer no questions', async () => {
    expect(await findGeneration({ url: taker.url, bucket: 'piles' })).toBeUndefined();
  });
});
