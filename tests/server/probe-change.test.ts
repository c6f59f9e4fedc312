import { expect, test } from 'vitest';
import { seriesAnswerSchema } from '../../shared/contracts/series.ts';
import { commitReadings } from '../helpers/commit-readings.ts';
import { makeDataDir, openTestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const hourMs = 3_600_000;

test('a position served by two probes one after the other shows one line, each reading once', async () => {
  const { dataDir, remove } = await makeDataDir();
  const nowMs = Math.floor(Date.now() / hourMs) * hourMs;
  const laidMs = nowMs - 10 * hourMs;
  const changedMs = nowMs - 5 * hourMs + 20 * 60_000;
  const { installation, app, close } = await openTestInstallation(dataDir);
  const call = async (method: 'POST' | 'DELETE', url: string, payload?: object) => {
    const answer = await app.inject({ method, url, ...(payload && { payload }) });
    if (answer.statusCode >= 300) throw new Error(answer.body);
  };
  // Both probes talk all the time; only what each said while it stood there counts.
  for (const [probe, tempC] of [
    ['old', 30],
    ['new', 40],
  ] as const) {
    const readings = Array.from({ length: 60 }, (_, i) => ({
      site: 'saltmere-yard',
      probe,
      quantity: 'temperature' as const,
      atMs: laidMs + i * 10 * 60_000,
      value: tempC,
    }));
    await commitReadings(installation, readings);
  }
  await call('POST', '/api/sites', { name: 'Saltmere Yard' });
  await call('POST', '/api/piles', { site: 'saltmere-yard', id: 'bed', name: 'Bed', stage: 'bran', startedAt: laidMs });
  await installation.journal.claims.claim({
    site: 'saltmere-yard',
    probe: 'old',
    pileId: 'bed',
    position: 'core',
    fromMs: laidMs,
  });
  await installation.journal.claims.release('saltmere-yard', 'old', changedMs);
  await call('POST', '/api/probes/saltmere-yard/new/claim', { pileId: 'bed', position: 'core', from: changedMs });

  const url = `/api/piles/bed/series?from=${laidMs}&to=${nowMs}&points=10`;
  const buckets = seriesAnswerSchema.parse((await app.inject({ url })).json()).positions.core?.temperatureC ?? [];
  expect(buckets.length).toBeLessThanOrEqual(10);
  expect(buckets.reduce((sum, { count }) => sum + count, 0)).toBe(60);
  expect(new Set(buckets.map(({ at }) => at)).size).toBe(buckets.length);
  expect(buckets[0]).toMatchObject({ min: 30, max: 30 });
  expect(buckets.at(-1)).toMatchObject({ min: 40, max: 40 });
  expect(buckets.some(({ min, max }) => min === 30 && max === 40)).toBe(true);
  await close();
  await remove();
});

test('a pile without an air probe takes its site’s, until that probe leaves', async () => {
  const { dataDir, remove } = await makeDataDir();
  const { installation, app, close } = await openTestInstallation(dataDir);
  const call = async (method: 'POST' | 'DELETE', url: string, payload?: object) => {
    const answer = await app.inject({ method, url, ...(payload && { payload }) });
    if (answer.statusCode >= 300) throw new Error(answer.body);
  };
  await call('POST', '/api/sites', { name: 'Saltmere Yard' });
  for (const name of ['One', 'Two'])
    await call('POST', '/api/piles', { site: 'saltmere-yard', id: name.toLowerCase(), name, stage: 'bran' });
  installation.probes.of('saltmere-yard', 'air-1');
  const airOf = (id: string) => installation.watch.get(id)?.summary().positions.air?.probe;

  await call('POST', '/api/probes/saltmere-yard/air-1/claim', { pileId: 'one', position: 'air' });
  await until('the loan', () => airOf('two') === 'air-1' || undefined);
  expect(airOf('one')).toBe('air-1');
  await call('DELETE', '/api/probes/saltmere-yard/air-1/claim');
  await until('the end of the loan', () => airOf('two') === undefined || undefined);
  await close();
  await remove();
});
