import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { StoreError } from '../../../shared/errors.ts';
import type { Reading } from '../../../shared/reading.ts';
import type { KnownInflux } from '../../../shared/store/influx/influx-address.ts';
import { authPatience } from '../../../shared/store/influx/influx-client.ts';
import { openInfluxReadings } from '../../../shared/store/influx/influx-readings.ts';
import { latestInfluxMs } from '../../../shared/store/influx/line-protocol.ts';
import { appended } from '../../../shared/store/readings-store.ts';
import { type InfluxDouble, startInfluxDouble } from '../../helpers/influx-double.ts';
import { hasInflux, startInflux, type TestInflux } from '../../helpers/influxdb.ts';
import { beginMs, dayMs, site } from './arbitrary-readings.ts';
import { readingsStoreContract } from './readings-store-contract.ts';

const reading = (minute: number, value = 20, probe = 'bran-core'): Reading => ({
  site,
  probe,
  quantity: 'temperature',
  atMs: beginMs + minute * 60_000,
  value,
});

describe.skipIf(!hasInflux)('a double of InfluxDB', () => {
  let influx: TestInflux;
  beforeAll(async () => {
    influx = await startInflux();
  });
  afterAll(() => influx.remove());

  for (const generation of [2, 3] as const) {
    describe(`generation ${generation}`, () => {
      let double: InfluxDouble;
      beforeEach(async () => {
        double = await startInfluxDouble(generation, influx.url);
      });
      afterEach(() => double.close());

      const newAddress = async (): Promise<KnownInflux> => {
        const { url, token, org } = double;
        return { ...(await influx.newDatabase()), url, token, generation, ...(generation === 2 && { org }) };
      };

      readingsStoreContract(
        'readings',
        async () => {
          const address = await newAddress();
          let store = await openInfluxReadings(address, { ...authPatience, gzip: true });
          return {
            store,
            reopen: async () => {
              await store.close();
              store = await openInfluxReadings(address);
              return store;
            },
          };
        },
        { latestMs: latestInfluxMs, tellsBytes: false, downsamples: generation === 2 },
      );

      test('append() packs long batches for the way, and leaves short ones as they are', async () => {
        const store = await openInfluxReadings(await newAddress(), { ...authPatience, gzip: true });
        await store.append([reading(0)]);
        await store.append(Array.from({ length: 100 }, (_, minute) => reading(minute + 1)));
        expect(
          double.writes.map(({ packed, lines }) => [
            packed,
            lines.filter((line) => line.startsWith('temperature')).length,
          ]),
        ).toEqual([
          [false, 1],
          [true, 100],
        ]);
        expect(double.writes[0]?.lines[0]).toBe(`temperature,probe=bran-core,site=${site} value=20 ${beginMs}`);
        await store.close();
      });

      test('append() keeps nothing while the database is too busy, and tries nothing before the time it named', async () => {
        const store = await openInfluxReadings(await newAddress());
        double.answers.push({
          status: 429,
          headers: { 'retry-after': '1' },
          body: '{"code":"too many requests","message":"too many"}',
        });
        const refused = await store.append([reading(0)]).catch((error: StoreError) => error);
        expect(refused).toMatchObject({ name: 'StoreError', retryAfterMs: 1_000 });
        expect(String(refused)).toMatch(/Cannot keep a reading as InfluxDB at http:\S+ answered 429: too many/);
        await expect(store.append([reading(0)])).rejects.toThrow(/asked not to be asked for 1 s more/);
        await expect(store.check()).rejects.toThrow(/asked not to be asked/);
        expect(double.writes).toHaveLength(1);
        await new Promise((resolve) => setTimeout(resolve, 1_050));
        expect((await store.append([reading(0)])).newCount).toBe(1);
        await store.close();
      });

      test('what a failed write left behind is new when it comes again, and is kept once', async () => {
        const store = await openInfluxReadings(await newAddress());
        await store.append([reading(10)]);
        const batch = [reading(5, 1), reading(6, 2), reading(11, 3), reading(12, 4)];
        double.answers.push(
          { status: 503, body: 'unavailable', keeps: (line) => / value=[13] /.test(line) },
          { status: 204, breaks: true },
        );
        await expect(store.append(batch)).rejects.toThrow(/answered 503: unavailable/);
        await expect(store.append(batch)).rejects.toThrow(/cannot be reached: ECONNRESET/);
        await store.lasts(); // which shows the newest of them
        // the server never heard of any: all are new, then known
        expect([...(await store.append(batch)).outcomes]).toEqual([1, 1, 1, 1]);
        expect([...(await store.append(batch)).outcomes]).toEqual([2, 2, 2, 2]);
        expect((await store.size()).rows).toBe(5);
        await store.close();
      });

      test('a batch of which the database refuses a line is not kept, and its error names the line', async () => {
        const store = await openInfluxReadings(await newAddress());
        const said =
          generation === 2
            ? {
                code: 'unprocessable entity',
                message:
                  'failure writing points to database: partial write: field type conflict: input field "value" on measurement "temperature" is type string, already exists as type float dropped=1',
              }
            : {
                error: 'partial write of line protocol occurred',
                data: [{ original_line: 'temperature,probe=b', line_number: 2, error_message: 'invalid' }],
              };
        double.answers.push({
          status: generation === 2 ? 422 : 400,
          body: JSON.stringify(said),
          keeps: (line) => !line.includes('value=21'),
        });
        await expect(store.append([reading(0, 20), reading(1, 21), reading(2, 22)])).rejects.toThrow(
          /partial write.*; 1 of them are not there, first saltmere-yard\/bran-core temperature 21 at 2031-03-30T00:01:00.000Z/s,
        );
        expect([...(await store.append([reading(0, 20), reading(1, 21), reading(2, 22)])).outcomes]).toEqual([1, 1, 1]);
        await store.close();
      });

      test('names of any kind are kept apart and come back as they were', async () => {
        const store = await openInfluxReadings(await newAddress());
        const names = ['a b', 'a,b', 'a=b', "a'b", 'a"b', 'a\\', 'a\nb', '%', '', 'ü-Grün', '"; DROP', 'a%20b', '(*)!'];
        const readings = names.map((probe, minute) => reading(minute, minute, probe));
        expect((await store.append(readings)).newCount).toBe(names.length);
        expect((await store.append(readings)).duplicateCount).toBe(names.length);
        expect(await store.rows(readings, 0, beginMs + dayMs, 100)).toEqual(readings);
        expect((await store.lasts()).map(({ probe }) => probe).sort()).toEqual(names.toSorted());
        await expect(store.append([reading(0, 0, '\ud800')])).rejects.toThrow(RangeError);
        await store.close();
      });
    });
  }

  test('the value kept first stays, over a restart too', async () => {
    const address = await influx.newDatabase();
    const first = await openInfluxReadings(address);
    await first.append([reading(0, 1), reading(1, 2), reading(2, 3)]);
    await first.close();
    const second = await openInfluxReadings(address);
    const { outcomes } = await second.append([reading(0, 9), reading(2, 9), reading(1, 2), reading(3, 4)]);
    expect([...outcomes]).toEqual([appended.conflict, appended.conflict, appended.duplicate, appended.new]);
    expect((await second.rows([reading(0)], 0, beginMs + dayMs, 10)).map(({ value }) => value)).toEqual([1, 2, 3, 4]);
    await second.close();
  });

  test('with two writers the same readings are still one; of two values the one written last stays', async () => {
    const address = await influx.newDatabase();
    const [one, two] = [await openInfluxReadings(address), await openInfluxReadings(address)];
    await one.append([reading(0, 1), reading(1, 2)]);
    expect((await two.append([reading(0, 1), reading(1, 9)])).newCount).toBe(2);
    expect((await one.rows([reading(0)], 0, beginMs + dayMs, 10)).map(({ value }) => value)).toEqual([1, 9]);
    // once it has looked again, the second sees what the first keeps
    await one.append([reading(5, 7)]);
    await two.lasts();
    expect([...(await two.append([reading(5, 8), reading(0, 1)])).outcomes]).toEqual([3, 2]);
    await Promise.all([one.close(), two.close()]);
  });
});
