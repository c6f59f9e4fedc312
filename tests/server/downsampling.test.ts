/**
 * Readings older than the owner chose are downsampled by the server itself: what is compared stays, figure by figure; what
 * cannot stay is said where it is shown.
 */
import type { InjectOptions } from 'fastify';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Clock } from '../../shared/clock.ts';
import { msPerDay, msPerHour } from '../../shared/units.ts';
import { writePast } from '../../simulator/demo/past-seasons/write-past.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';
import { demoStartMs } from '../helpers/past-server.ts';
import { until } from '../helpers/until.ts';

const clock: Clock = { nowMs: () => demoStartMs, speed: 1 };
/** Between the two past years. */
const keptDays = 300;
const oldEnoughMs = demoStartMs - keptDays * msPerDay;

let test_: TestInstallation;
let folder: Awaited<ReturnType<typeof makeDataDir>>;

async function ask(options: InjectOptions | string) {
  const response = await test_.app.inject(options);
  return { status: response.statusCode, text: response.body, json: () => response.json() };
}
const get = async (url: string) => (await ask(url)).json();
const choose = async (days: number | null) =>
  (await ask({ method: 'PUT', url: '/api/retention', payload: { keptDays: days } })).json();
const isoOf = (ms: number) => new Date(ms).toISOString();

/** A batch that ended before the age, one that lies within it, and what is shown of both. */
async function shown() {
  const compared = await get('/api/compare');
  const byStart = [...compared.batches].sort((a: { startedAt: string }, b: { startedAt: string }) =>
    a.startedAt.localeCompare(b.startedAt),
  );
  const [oldest, newest] = [byStart[0], byStart.at(-1)];
  const threeH = 3 * msPerHour;
  // From and to whole rollups: only there can downsampled buckets be what they were.
  const series = async ({ pileId, startedAt, endedAt }: typeof oldest, bucketMinutes: number) => {
    const fromMs = Math.ceil(Date.parse(startedAt) / threeH) * threeH;
    const toMs = Math.floor(Date.parse(endedAt) / threeH) * threeH;
    const points = (toMs - fromMs) / (bucketMinutes * 60_000);
    const [from, to] = [isoOf(fromMs), isoOf(toMs)];
    const { bucketMs, positions } = await get(`/api/piles/${pileId}/series?from=${from}&to=${to}&points=${points}`);
    expect(bucketMs).toBe(bucketMinutes * 60_000);
    return positions;
  };
  return {
    oldest,
    newest,
    compared,
    curves: await get('/api/compare/curves'),
    closest: await get(`/api/batches/${newest.id}/closest`),
    oldestCoarse: await series(oldest, 180),
    oldestFine: await series(oldest, 10),
    newestFine: await series(newest, 10),
  };
}

beforeAll(async () => {
  folder = await makeDataDir();
  await writePast({ dataDir: folder.dataDir, seed: 5, demoStartMs });
  test_ = await openTestInstallation(folder.dataDir, {}, clock);
});
afterAll(async () => {
  await test_.close();
  await folder.remove();
});

test('nothing is downsampled before the owner chooses an age, and what each would free is told', async () => {
  const keeping = await get('/api/retention?keptDays=300');
  expect(keeping).toMatchObject({ keptDays: null, downsampledBefore: null, running: null, last: null, heldBy: null });
  expect(keeping.wouldFree.map((one: { keptDays: number }) => one.keptDays)).toEqual([90, 300, 365, 730]);
  const [ninety, , year] = keeping.wouldFree;
  expect(ninety.rows).toBeGreaterThan(year.rows);
  expect(year.rows).toBeGreaterThan(10_000);
  expect(keeping.rows).toBeGreaterThanOrEqual(ninety.rows);
});

test('an age under 30 days is refused with the place', async () => {
  const answer = await ask({ method: 'PUT', url: '/api/retention', payload: { keptDays: 7 } });
  expect(answer.status).toBe(400);
  expect(answer.json().errors).toMatchObject([{ pointer: '/keptDays' }]);
});

describe('once an age is chosen', () => {
  let before: Awaited<ReturnType<typeof shown>>;
  let recordBefore: { timeTemperature: { hoursAtLeast: { totalH: number }[]; highestC: number; says: string[] } };
  let promised: number;
  beforeAll(async () => {
    before = await shown();
    recordBefore = await get(`/api/batches/${before.oldest.id}/record`);
    promised = (await get('/api/retention?keptDays=300')).wouldFree[1].rows;
    await choose(keptDays);
    await until('the end of the run', () => test_.installation.downsampling.last().then((last) => last ?? undefined));
  });

  test('as many readings are gone as was told, and the last run is told', async () => {
    const keeping = await get('/api/retention');
    expect(keeping.last).toMatchObject({ removed: promised, before: isoOf(oldEnoughMs) });
    expect(keeping.wouldFree.find((one: { keptDays: number }) => one.keptDays === keptDays).rows).toBe(0);
    expect(Date.parse(keeping.downsampledBefore)).toBeGreaterThan(oldEnoughMs - 3 * msPerHour);
    expect((await ask('/metrics')).text).toContain(`branhearth_readings_downsampled_total ${promised}\n`);
  });

  test('not a figure or curve of the comparison, of the closest batches, and of charts from ten minutes on differs', async () => {
    expect(await shown()).toEqual(before);
    expect(Date.parse(before.oldest.endedAt)).toBeLessThan(oldEnoughMs);
    expect(Date.parse(before.newest.startedAt)).toBeGreaterThan(oldEnoughMs);
  });

  test('the record counts no more hours at a temperature than it did, keeps the highest, and says why', async () => {
    const { timeTemperature } = await get(`/api/batches/${before.oldest.id}/record`);
    const hours = (of: typeof recordBefore.timeTemperature) => of.hoursAtLeast.map(({ totalH }) => totalH);
    const [had, has] = [hours(recordBefore.timeTemperature), hours(timeTemperature)];
    expect(Math.max(...had)).toBeGreaterThan(20);
    for (const [index, totalH] of has.entries()) {
      expect(totalH).toBeLessThanOrEqual((had[index] ?? 0) + 1 / 6);
      expect(totalH).toBeGreaterThan((had[index] ?? 0) * 0.9 - 1);
    }
    expect(timeTemperature.highestC).toBe(recordBefore.timeTemperature.highestC);
    expect(timeTemperature.says.at(-1)).toMatch(/every ten minutes are kept as lowest, mean and highest only/);
    expect(recordBefore.timeTemperature.says.join()).not.toMatch(/ten minutes/);
  });

  test('the export says of each row whether it is a reading or ten minutes', async () => {
    const rowsOf = async (id: string) =>
      (await ask(`/api/batches/${id}/readings.csv`)).text.replace(/^\ufeff/, '').split('\r\n');
    const [heading, first] = await rowsOf(before.oldest.id);
    expect(heading).toBe('time,site,probe,position,quantity,value,unit,row is,readings,least,most');
    expect(first).toMatch(/:\d5:00(\.000)?Z,.*,the mean of ten minutes,\d+,[\d.-]+,[\d.-]+$/);
    expect((await rowsOf(before.newest.id))[1]).toMatch(/,a reading,1,/);
  });

  test('a log of that time is not taken for a probe that was there, and is taken for one of its own', async () => {
    const old = (await test_.installation.readings.lasts()).find(({ atMs }) => atMs < oldEnoughMs);
    const { site = '', probe = '', atMs = 0 } = old ?? {};
    const csv = `time,temperature\n${isoOf(atMs - 61_000)},21\n${isoOf(atMs - 1_000)},22\n`;
    const commit = async (name: string) => {
      const body = { kind: 'readings', csv, site, probe: name };
      const { digest } = (await ask({ method: 'POST', url: '/api/import/preview', payload: body })).json();
      return (await ask({ method: 'POST', url: '/api/import/commit', payload: { ...body, digest } })).json();
    };
    expect(await commit(probe)).toMatchObject({ kept: 0, downsampled: 2 });
    expect(await commit('notebook-of-old')).toMatchObject({ kept: 2, downsampled: 0 });
  });

  test('a higher age brings nothing back and thins nothing', async () => {
    expect(await choose(730)).toMatchObject({ keptDays: 730, last: { removed: promised } });
    expect(await choose(null)).toMatchObject({ keptDays: null, last: { removed: promised } });
  });

  test('age and last run outlast a restart', async () => {
    await choose(keptDays);
    await test_.close();
    test_ = await openTestInstallation(folder.dataDir, {}, clock);
    expect(await get('/api/retention')).toMatchObject({ keptDays, last: { removed: promised } });
    expect(await shown()).toEqual(before);
  });
});

test('a batch that still lies keeps its readings, however long, and is named', async () => {
  const startedAtMs = demoStartMs - 150 * msPerDay;
  const { journal } = test_.installation;
  const [pile] = await journal.piles.list();
  const [batch] = await journal.batches.list();
  if (!pile || !batch) throw new Error('the past must have piles');
  await journal.piles.add(
    { ...pile, id: 'left-lying', name: 'Left lying' },
    { ...batch, id: 'lies-long', pileId: 'left-lying', startedAtMs, endedAtMs: null, outcome: null },
  );
  const at = (ms: number) => ({
    site: pile.siteId,
    probe: 'long',
    quantity: 'temperature' as const,
    atMs: ms,
    value: 30,
  });
  await test_.installation.readings.append([at(startedAtMs + msPerHour), at(demoStartMs - msPerHour)]);
  const keeping = await choose(30);
  expect(keeping.heldBy).toMatchObject({ batchId: 'lies-long', pileName: 'Left lying' });
  const heldAt = isoOf(startedAtMs - msPerDay);
  await until('the end of the run', () =>
    test_.installation.downsampling.last().then((last) => (last?.before === heldAt ? last : undefined)),
  );
  const rows = await test_.installation.readings.rows([at(0)], 0, demoStartMs, 10);
  expect(rows.map(({ standsFor }) => standsFor)).toEqual([undefined, undefined]);
});
