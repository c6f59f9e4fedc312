import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openSqliteJournal } from '../../shared/store/journal/sqlite-journal.ts';
import { openSqliteReadings } from '../../shared/store/readings/sqlite-readings.ts';
import { pastPlan } from '../../simulator/demo/past-seasons/past-plan.ts';
import { playPast } from '../../simulator/demo/past-seasons/play-past.ts';
import { barText } from '../../simulator/demo/past-seasons/progress-bar.ts';
import { writePast } from '../../simulator/demo/past-seasons/write-past.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';

const demoStartMs = Date.UTC(2031, 5, 10, 6);
let dataDir: string;
let remove: () => Promise<void>;
let rows = 0;
const told: number[] = [];

beforeAll(async () => {
  ({ dataDir, remove } = await makeDataDir());
  rows = await writePast({ dataDir, seed: 7, demoStartMs, onBatch: (done) => told.push(done) });
});
afterAll(() => remove());

test('pastPlan() lays 24 batches in two years at two sites, the same for the same seed, none of them over another', () => {
  const plan = pastPlan(7, 2031);
  expect(plan).toEqual(pastPlan(7, 2031));
  expect(plan).not.toEqual(pastPlan(8, 2031));
  expect(plan).toHaveLength(24);
  expect(new Set(plan.map(({ site }) => site)).size).toBe(2);
  expect([...new Set(plan.map(({ year }) => year))]).toEqual([2029, 2030]);
  for (const one of plan) {
    for (const other of plan) {
      if (one === other || one.pileId !== other.pileId) continue;
      const apart = Math.abs(one.laidAtMs - other.laidAtMs) / 3_600_000;
      expect(apart).toBeGreaterThanOrEqual(one.laidAtMs < other.laidAtMs ? one.lengthH : other.lengthH);
    }
  }
});

test('playPast() gives the same readings for the same seed', () => {
  const batch = pastPlan(7, 2031).at(-1);
  if (!batch) throw new Error('no batch');
  expect(playPast(batch, 3).readings.slice(0, 200)).toEqual(playPast(batch, 3).readings.slice(0, 200));
});

test('writePast() keeps 24 ended batches with outcomes that differ, and says how far it is', async () => {
  const journal = await openSqliteJournal(join(dataDir, 'journal.db'));
  try {
    const batches = await journal.batches.list();
    expect(batches).toHaveLength(24);
    expect(batches.every(({ endedAtMs }) => endedAtMs !== null && endedAtMs < demoStartMs)).toBe(true);
    expect(new Set(batches.map(({ outcome }) => outcome)).size).toBeGreaterThanOrEqual(4);
    const flows = await journal.lineage.flows();
    expect(flows.filter(({ way }) => way === 'continued')).toHaveLength(8);
    expect(flows.filter(({ way }) => way === 'used')).toHaveLength(8);
    expect(told.at(-1)).toBe(24);
  } finally {
    await journal.close();
  }
});

test('writePast() keeps every reading it counts', async () => {
  const store = openSqliteReadings(join(dataDir, 'readings.db'));
  try {
    expect((await store.size()).rows).toBe(rows);
  } finally {
    await store.close();
  }
});

test('barText() fills as the work is done', () => {
  expect(barText(0, 24)).toBe(`[${'.'.repeat(24)}] 0 of 24`);
  expect(barText(6, 24)).toBe(`[${'#'.repeat(6)}${'.'.repeat(18)}] 6 of 24`);
});
