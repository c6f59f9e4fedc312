import { appendFile, cp, mkdir, readdir, readFile, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { makeBackup } from '../../../server/backup/make-backup.ts';
import { restoreBackup } from '../../../server/backup/restore-backup.ts';
import { openSqliteReadings } from '../../../shared/store/readings/sqlite-readings.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';

const firstMs = Date.UTC(2031, 0, 1);
const nowMs = Date.UTC(2031, 5, 1, 12);
let one: TestInstallation;
let folder: string;
let dataDir: string;
let file: string;
let remove: () => Promise<void>;

const rows = (from: number, count: number) =>
  Array.from({ length: count }, (_, i) => ({
    site: 'saltmere-yard',
    probe: 'p1',
    quantity: 'temperature' as const,
    atMs: firstMs + (from + i) * 60_000,
    value: 20 + (i % 10),
  }));

beforeEach(async () => {
  ({ dataDir: folder, remove } = await makeDataDir());
  dataDir = join(folder, 'data');
  file = join(folder, 'kept.tar.gz');
  one = await openTestInstallation(dataDir);
  await one.app.inject({ method: 'POST', url: '/api/sites', payload: { name: 'Saltmere Yard' } });
  await one.app.inject({
    method: 'POST',
    url: '/api/piles',
    payload: { site: 'saltmere-yard', id: 'bed', name: 'Bed', stage: 'bran' },
  });
  await one.installation.readings.append(rows(0, 500));
  await mkdir(join(dataDir, 'photos'), { recursive: true });
  await writeFile(join(dataDir, 'photos', 'a.jpg'), 'a picture');
});
afterEach(async () => {
  await one.close();
  await remove();
});

test('makeBackup() takes readings, journal and photos while the server is at work, and restoreBackup() brings back as many', async () => {
  let next = 500;
  const writing = setInterval(() => void one.installation.readings.append(rows(next++, 1)), 2);
  const manifest = await makeBackup(dataDir, file, nowMs);
  clearInterval(writing);
  expect(manifest.counts).toMatchObject({ piles: 1, batches: 1 });
  expect(manifest.counts.readings).toBeGreaterThanOrEqual(500);
  expect(manifest.files.map(({ name }) => name)).toEqual(['journal.db', 'photos/a.jpg', 'readings.db']);

  const into = join(folder, 'elsewhere');
  const restored = await restoreBackup(file, into, false, nowMs);
  expect(restored).toMatchObject({ movedTo: null, manifest: { counts: manifest.counts } });
  const store = openSqliteReadings(join(into, 'readings.db'));
  expect((await store.size()).rows).toBe(manifest.counts.readings);
  await store.close();
  expect(await readFile(join(into, 'photos', 'a.jpg'), 'utf8')).toBe('a picture');
  expect((await readdir(folder)).sort()).toEqual(['data', 'elsewhere', 'kept.tar.gz']); // no scratch is left
});

test('makeBackup() of an installation whose journal is in PostgreSQL holds the readings alone', async () => {
  const { counts, files } = await makeBackup(dataDir, file, nowMs, { databases: ['readings.db'] });
  expect(counts).toEqual({ readings: 500 });
  expect(files.map(({ name }) => name)).toEqual(['readings.db']);
  const restored = await restoreBackup(file, join(folder, 'elsewhere'), false, nowMs);
  expect(restored.manifest.counts).toEqual({ readings: 500 });
});

test('makeBackup() refuses to write over a file, and to back up nothing', async () => {
  await writeFile(file, 'mine');
  await expect(makeBackup(dataDir, file, nowMs)).rejects.toThrow('is there already');
  expect(await readFile(file, 'utf8')).toBe('mine');
  await expect(makeBackup(join(folder, 'none'), join(folder, 'x'), nowMs)).rejects.toThrow('nothing to back up');
});

test('restoreBackup() refuses a folder that holds data, and moves it aside only when told', async () => {
  await makeBackup(dataDir, file, nowMs);
  const into = join(folder, 'used');
  await cp(dataDir, into, { recursive: true });
  await expect(restoreBackup(file, into, false, nowMs)).rejects.toThrow('holds data already');
  const { movedTo } = await restoreBackup(file, into, true, nowMs);
  expect(movedTo).toBe(`${into}-before-20310601-120000`);
  expect(await readdir(movedTo ?? '')).toContain('readings.db');
});

test('restoreBackup() refuses a folder that a server has open', async () => {
  await makeBackup(dataDir, file, nowMs);
  await expect(restoreBackup(file, dataDir, true, nowMs)).rejects.toThrow('another one has it open');
});

test('restoreBackup() refuses a backup that is not whole, and leaves the folder as it was', async () => {
  await makeBackup(dataDir, file, nowMs);
  const bytes = await readFile(file);
  const into = join(folder, 'fresh');
  await writeFile(file, bytes.subarray(0, bytes.length / 2));
  await expect(restoreBackup(file, into, false, nowMs)).rejects.toThrow();
  await writeFile(file, 'no archive at all');
  await expect(restoreBackup(file, into, false, nowMs)).rejects.toThrow('no whole backup');
  await appendFile(file, '');
  expect(await readdir(folder)).not.toContain('fresh');
});

test('a backup holds people’s and keys’ hashes, counts them, and only its owner may read it, before and after', async () => {
  const key = { name: 'Gate', site: 'saltmere-yard', probe: null, foreign: [], hears: 'own' };
  expect((await one.app.inject({ method: 'POST', url: '/api/keys', payload: key })).statusCode).toBe(201);
  const manifest = await makeBackup(dataDir, file, nowMs);
  expect(manifest.counts).toMatchObject({ people: 0, keys: 1 });
  const modeOf = async (path: string) => ((await stat(path)).mode & 0o777).toString(8);
  expect(await modeOf(file)).toBe('600');
  const into = join(folder, 'elsewhere');
  expect((await restoreBackup(file, into, false, nowMs)).manifest.counts.keys).toBe(1);
  expect([await modeOf(join(into, 'journal.db')), await modeOf(join(into, 'readings.db'))]).toEqual(['600', '600']);
});
