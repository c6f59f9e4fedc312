import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { moveReadings } from '../../../server/move/move-readings.ts';
import type { Reading } from '../../../shared/reading.ts';
import { openInfluxReadings } from '../../../shared/store/influx/influx-readings.ts';
import { openSqliteReadings } from '../../../shared/store/readings/sqlite-readings.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import { hasTestInflux, openTestInflux } from '../../helpers/given-influx.ts';
import type { TestInflux } from '../../helpers/influxdb.ts';
import { beginMs, dayMs, someSeries } from '../../shared/store/arbitrary-readings.ts';
import { downsampleWhole, toBuckets } from '../../shared/store/readings-store-contract.ts';

const minutes = 3_000;
const hourMs = 3_600_000;
/** Every series a reading a minute, with a value that sums badly. */
const readings: Reading[] = someSeries.flatMap((series, place) =>
  Array.from({ length: minutes }, (_, minute) => ({
    ...series,
    atMs: beginMs + minute * 60_000 + place,
    value: 20 + ((minute * 7 + place) % 13) / 10,
  })),
);
const total = readings.length;

/** Fails after so many batches, as a run that is killed. */
function breaking(store: ReadingsStore, batches: number): ReadingsStore {
  let left = batches;
  return new Proxy(store, {
    get(target, name: keyof ReadingsStore) {
      if (name === 'append') {
        return (batch: Reading[]) => {
          left -= 1;
          return left < 0 ? Promise.reject(new Error('killed')) : target.append(batch);
        };
      }
      const value = target[name];
      return typeof value === 'function' ? value.bind(target) : value;
    },
  });
}

async function everything(store: ReadingsStore) {
  const bucketsAt = async (points: number) => {
    const { columns } = await store.buckets(someSeries, beginMs, beginMs + 3 * dayMs, points);
    return columns.map(toBuckets).map((buckets) => buckets.map(({ count, min, max }) => [count, min, max]));
  };
  return {
    rows: await store.rows(someSeries, 0, beginMs + 40 * dayMs, 100_000),
    lasts: (await store.lasts()).map((last) => JSON.stringify(last)).sort(),
    watermark: await store.rawFrom(someSeries),
    buckets: [await bucketsAt(400), await bucketsAt(70), await bucketsAt(5)],
  };
}

describe.skipIf(!hasTestInflux)('moveReadings()', () => {
  let influx: TestInflux;
  beforeAll(async () => {
    influx = await openTestInflux();
  });
  afterAll(() => influx.remove());

  const kinds = {
    embedded: async () => openSqliteReadings(':memory:', { flushAt: 500 }),
    server: async () => openInfluxReadings(await influx.newDatabase()),
  };
  const ways = [
    ['embedded', 'server'],
    ['server', 'embedded'],
  ] as const;

  for (const [fromKind, toKind] of ways) {
    for (const downsampledHours of [0, 20]) {
      const what = `from ${fromKind} to ${toKind} ${downsampledHours === 0 ? 'as they came' : 'downsampled in part'}`;
      test(`moves readings ${what}, goes on after it was killed, and changes nothing when run again`, async () => {
        const [from, to] = [await kinds[fromKind](), await kinds[toKind]()];
        await from.append(readings);
        if (downsampledHours > 0) await downsampleWhole(from, beginMs + downsampledHours * hourMs);
        const options = { pageRows: 500 };
        await expect(moveReadings(from, breaking(to, 9), options)).rejects.toThrow('killed');
        const halfway = (await to.size()).rows;
        expect(halfway).toBeGreaterThan(0);
        expect(halfway).toBeLessThan((await from.size()).rows);

        const written: number[] = [];
        const moved = await moveReadings(from, to, { ...options, progress: (now) => written.push(now.written) });
        // it went on where it stopped
        expect(written.at(-1)).toBe((await from.size()).rows - halfway);
        expect(moved.map(({ fromCount, toCount, difference }) => [fromCount, toCount, difference])).toEqual(
          someSeries.map(() => [minutes, minutes, null]),
        );
        expect(await everything(to)).toEqual(await everything(from));

        const again: number[] = [];
        await moveReadings(from, to, { ...options, progress: (now) => again.push(now.written) });
        expect(again.at(-1)).toBe(0);
        expect((await to.size()).rows).toBe((await from.size()).rows);
        await Promise.all([from.close(), to.close()]);
      });
    }
  }

  test('tells of readings that have another value there, and leaves them', async () => {
    const [from, to] = [await kinds.embedded(), await kinds.server()];
    await from.append(readings);
    const [first] = readings;
    if (first === undefined) throw new Error('there must be a reading');
    await to.append([{ ...first, value: 99 }]);
    const moved = await moveReadings(from, to);
    expect(moved[0]).toMatchObject({
      fromCount: minutes,
      toCount: minutes,
      difference: '1 have another value there, which stays',
    });
    expect(moved.filter(({ difference }) => difference !== null)).toHaveLength(1);
    // and again, though nothing is left to be written
    expect((await moveReadings(from, to))[0]?.difference).toBe('1 have another value there, which stays');
    expect((await to.size()).rows).toBe(total);
    await Promise.all([from.close(), to.close()]);
  });

  test('leaves a series alone that the other store has whole and this one downsampled', async () => {
    const [from, to] = [await kinds.embedded(), await kinds.server()];
    await from.append(readings);
    await moveReadings(from, to);
    await downsampleWhole(from, beginMs + dayMs);
    const moved = await moveReadings(from, to);
    expect(moved.every(({ fromCount, toCount, difference }) => fromCount === toCount && difference === null)).toBe(
      true,
    );
    expect((await to.size()).rows).toBe(total);
    await Promise.all([from.close(), to.close()]);
  });
});
