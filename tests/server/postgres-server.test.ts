import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { refuseBesideWhole } from '../../server/cluster/single-process.ts';
import { openPostgresJournal } from '../../shared/store/journal/postgres-journal.ts';
import { commitReadings } from '../helpers/commit-readings.ts';
import { makeDataDir, openTestInstallation } from '../helpers/open-test-server.ts';
import { hasPostgres, type Postgres, startPostgres } from '../helpers/postgres.ts';
import { until } from '../helpers/until.ts';

describe.skipIf(!hasPostgres)('a server whose journal is in PostgreSQL', () => {
  let postgres: Postgres;
  beforeAll(async () => {
    postgres = await startPostgres();
  });
  afterAll(() => postgres?.remove());

  test('keeps what its piles did while the database was away, once it is back', async () => {
    const { dataDir, remove } = await makeDataDir();
    const url = await postgres.database();
    let nowMs = Date.UTC(2031, 0, 2);
    const one = await openTestInstallation(dataDir, { JOURNAL_URL: url }, { nowMs: () => nowMs, speed: 1 });
    const ask = async (method: 'GET' | 'POST', path: string, payload?: object) =>
      (await one.app.inject({ method, url: path, ...(payload && { payload }) })).json();
    await ask('POST', '/api/sites', { name: 'Saltmere Yard' });
    const pile = await ask('POST', '/api/piles', {
      site: 'saltmere-yard',
      id: 'bran-bay',
      name: 'Bran bay',
      stage: 'bran',
    });
    const say = async (value: number) => {
      const reading = { site: 'saltmere-yard', probe: 'p1', quantity: 'temperature' as const, value, atMs: nowMs };
      await commitReadings(one.installation, [reading]);
    };
    await say(30);
    await ask('POST', '/api/probes/saltmere-yard/p1/claim', { pileId: pile.id, position: 'core' });

    await postgres.stop();
    expect((await one.app.inject({ url: '/api/health' })).statusCode).toBe(503);
    for (let minute = 0; minute < 40; minute += 1) {
      nowMs += 60_000;
      await say(62);
      await new Promise((resolve) => setTimeout(resolve, 30));
    }
    await postgres.start();

    const alarms = await until('the alarm of the outage is kept', async () => {
      const open = await one.installation.journal.alarms.open().catch(() => []);
      return open.some(({ kind }) => kind === 'overheating') ? open : undefined;
    });
    const hot = alarms.filter(({ kind }) => kind === 'overheating');
    expect(hot).toHaveLength(1);
    const steps = await one.installation.journal.alarms.steps(hot[0]?.id ?? '');
    expect(steps.filter(({ to }) => to === 'unacknowledged')).toHaveLength(1);
    const acknowledged = await one.app.inject({ method: 'POST', url: `/api/alarms/${hot[0]?.id}/acknowledge` });
    expect(acknowledged.statusCode).toBe(200);
    await one.close();
    await remove();
  });

  test('is alone on its journal: another server, or a worker, says so in one line', async () => {
    const [first, second, third] = [await makeDataDir(), await makeDataDir(), await makeDataDir()];
    const url = await postgres.database();
    const one = await openTestInstallation(first.dataDir, { JOURNAL_URL: url });
    const beside = await openPostgresJournal(url);
    await Promise.all([
      expect(openTestInstallation(second.dataDir, { JOURNAL_URL: url })).rejects.toThrow(
        /^Cannot run everything in one process as no other may be at work on this journal: [^\n]+$/,
      ),
      expect(refuseBesideWhole(beside)).rejects.toThrow(/^Cannot start with --only as a server [^\n]+$/),
    ]);
    await one.close();
    await refuseBesideWhole(beside);
    await (await openTestInstallation(third.dataDir, { JOURNAL_URL: url })).close();
    await beside.close();
    await first.remove();
    await second.remove();
    await third.remove();
  });

  test('keeps photos where every process reaches them', async () => {
    const { dataDir, remove } = await makeDataDir();
    const url = await postgres.database();
    const one = await openTestInstallation(dataDir, { JOURNAL_URL: url });
    const picture = await sharp({ create: { width: 300, height: 200, channels: 3, background: '#a06030' } })
      .jpeg()
      .toBuffer();
    const sent = await one.app.inject({
      method: 'PUT',
      url: '/api/photos/photo-of-skin-1',
      payload: picture,
      headers: { 'content-type': 'image/jpeg' },
    });
    expect(sent.statusCode).toBe(201);
    await one.close();
    await remove();

    const elsewhere = await makeDataDir();
    const other = await openTestInstallation(elsewhere.dataDir, { JOURNAL_URL: url });
    const got = await other.app.inject({ url: '/api/photos/photo-of-skin-1' });
    expect(got.statusCode).toBe(200);
    expect((await sharp(got.rawPayload).metadata()).width).toBe(300);
    await other.close();
    await elsewhere.remove();
  });
});
