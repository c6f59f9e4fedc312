import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Client } from 'pg';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { checkFolder } from '../../../server/check/check-folder.ts';
import { checkJournal, checkReadings } from '../../../server/check/check-stores.ts';
import { readConfig } from '../../../shared/config.ts';
import { openPostgresJournal } from '../../../shared/store/journal/postgres-journal.ts';
import { openSqliteJournal } from '../../../shared/store/journal/sqlite-journal.ts';
import { inspectJournal } from '../../../shared/store/open/inspect-journal.ts';
import { openSqliteReadings } from '../../../shared/store/readings/sqlite-readings.ts';
import Database from '../../../shared/store/sqlite-driver.ts';
import { startInfluxDouble } from '../../helpers/influx-double.ts';
import { hasInflux, startInflux, type TestInflux } from '../../helpers/influxdb.ts';
import { hasPostgres, type Postgres, startPostgres } from '../../helpers/postgres.ts';
import { scratchFolder } from '../../shared/store/scratch.ts';

const configOf = (environment: Record<string, string>) => {
  const given = Object.entries(environment).map(([name, value]) => [`BRANHEARTH_${name}`, value]);
  return readConfig(Object.fromEntries(given)).config;
};
const readings = (environment: Record<string, string>) => checkReadings(configOf(environment));

async function journal(environment: Record<string, string>) {
  const config = configOf(environment);
  let opened: ReturnType<typeof inspectJournal> | undefined;
  const found = await checkJournal(config, () => {
    opened = inspectJournal(config.JOURNAL_URL, config.DATA_DIR);
    return opened;
  });
  await opened?.then(
    (look) => look?.close(),
    () => undefined,
  );
  return found;
}

const noDatabase = 'These are notes about bran, and no database at all. '.repeat(200);

describe('check of the folder', () => {
  test('says how much is free, and what is missing', async () => {
    const DATA_DIR = scratchFolder();
    expect(await checkFolder(configOf({ DATA_DIR, DISK_LOW: '1' }))).toMatchObject({
      state: 'ok',
      says: expect.stringMatching(/ may be written to, \d+ MB are free$/),
    });
    expect(await checkFolder({ ...configOf({ DATA_DIR }), DISK_LOW: 1e12 })).toMatchObject({
      state: 'wrong',
      says: expect.stringMatching(/ MB free, and 1000000000000 are wanted/),
      mend: expect.stringMatching(/^make room on that disk/),
    });
    expect(await checkFolder(configOf({ DATA_DIR: join(DATA_DIR, 'later') }))).toMatchObject({ state: 'ok' });
  });

  test('names a file where the folder should be', async () => {
    const file = join(scratchFolder(), 'data');
    mkdirSync(file, { mode: 0o000 });
    writeFileSync(`${file}-file`, '');
    expect(await checkFolder(configOf({ DATA_DIR: `${file}-file` }))).toMatchObject({
      state: 'wrong',
      says: expect.stringMatching(/^BRANHEARTH_DATA_DIR must be a folder/),
    });
  });
});

describe('check of readings in a file', () => {
  test('is content before the first start, and beside a server at work', async () => {
    const DATA_DIR = scratchFolder();
    expect(await readings({ DATA_DIR })).toMatchObject({ state: 'ok', says: expect.stringMatching(/^none yet: /) });
    const path = join(DATA_DIR, 'readings.db');
    const store = openSqliteReadings(path);
    onTestFinished(() => store.close());
    await store.append([{ site: 'yard', probe: 'p1', quantity: 'temperature', atMs: 60_000, value: 41.5 }]);
    expect(await readings({ DATA_DIR })).toEqual({
      part: 'readings',
      state: 'ok',
      says: `${path} is whole and can be written`,
    });
    expect((await store.size()).rows).toBe(1);
  });

  test('says how a damaged file is put back, and that a later version wrote one', async () => {
    const damaged = scratchFolder();
    writeFileSync(join(damaged, 'readings.db'), noDatabase);
    expect(await readings({ DATA_DIR: damaged })).toMatchObject({
      state: 'wrong',
      says: expect.stringMatching(/damaged.*put your newest backup back with `npm run restore/),
    });
    const later = scratchFolder();
    const db = new Database(join(later, 'readings.db'));
    db.pragma('user_version = 99');
    db.close();
    expect(await readings({ DATA_DIR: later })).toMatchObject({
      state: 'wrong',
      says: expect.stringMatching(/a later one wrote them \(99, .*install that version again/),
    });
  });
});

describe.skipIf(!hasInflux)('check of readings in InfluxDB', () => {
  let influx: TestInflux;
  beforeAll(async () => {
    influx = await startInflux();
    for (const name of ['branhearth', 'another']) await influx.ask(`CREATE DATABASE ${name}`);
  });
  afterAll(() => influx.remove());

  test('writes a point, reads it back and leaves nothing of it in 1.6', async () => {
    expect(await readings({ READINGS_URL: influx.url })).toEqual({
      part: 'readings',
      state: 'ok',
      says: `InfluxDB 1 at ${influx.url}: a point was written to “branhearth”, read back as it was, and removed`,
    });
    const left = await fetch(`${influx.url}/query?${new URLSearchParams({ db: 'branhearth', q: 'SHOW SERIES' })}`);
    expect(await left.text()).not.toContain('branhearth_check');
  });

  test('names what to set where nothing answers', async () => {
    expect(await readings({ READINGS_URL: 'http://127.0.0.1:9' })).toMatchObject({
      state: 'wrong',
      says: expect.stringMatching(/^BRANHEARTH_READINGS_URL must be the address of an InfluxDB that answers/),
    });
  });

  test('names the DBRP mapping where a double of 2 is asked elsewhere, and rows that stay when taken away', async () => {
    const double = await startInfluxDouble(2, influx.url);
    onTestFinished(() => double.close());
    const right = { READINGS_URL: double.url, READINGS_TOKEN: double.token, READINGS_ORG: double.org };
    expect(await readings(right)).toMatchObject({ state: 'ok', says: expect.stringMatching(/, and removed$/) });
    double.asksElsewhere = 'another';
    expect(await readings(right)).toMatchObject({
      state: 'wrong',
      says: expect.stringMatching(/^BRANHEARTH_READINGS_BUCKET .*was not there when it was asked for; a DBRP mapping/),
    });
    double.asksElsewhere = undefined;
    double.keepsAll = true;
    expect(await readings(right)).toMatchObject({
      state: 'wrong',
      says: expect.stringMatching(/^BRANHEARTH_READINGS_BUCKET .*took away was still there/),
    });
  });

  test('says that a point stays in a double of 3', async () => {
    const double = await startInfluxDouble(3, influx.url);
    onTestFinished(() => double.close());
    expect(await readings({ READINGS_URL: double.url, READINGS_TOKEN: double.token })).toMatchObject({
      state: 'ok',
      says: expect.stringMatching(/so one point of it stays$/),
    });
  });
});

describe('check of a journal in a file', () => {
  test('is content before the first start, and beside a server at work, and changes nothing', async () => {
    const DATA_DIR = scratchFolder();
    expect(await journal({ DATA_DIR })).toMatchObject({ state: 'ok', says: expect.stringMatching(/^none yet: /) });
    const open = await openSqliteJournal(join(DATA_DIR, 'journal.db'));
    onTestFinished(() => open.close());
    expect(await journal({ DATA_DIR })).toMatchObject({
      state: 'ok',
      says: expect.stringMatching(/ can be read and written$/),
    });
    expect(await open.settings.get('check')).toBeUndefined();
  });

  test('says how a damaged file is put back, and that a later version wrote one', async () => {
    const damaged = scratchFolder();
    writeFileSync(join(damaged, 'journal.db'), noDatabase);
    expect(await journal({ DATA_DIR: damaged })).toMatchObject({
      state: 'wrong',
      says: expect.stringMatching(/damaged.*put your newest backup back with `npm run restore/),
    });
    const later = scratchFolder();
    await (await openSqliteJournal(join(later, 'journal.db'))).close();
    const db = new Database(join(later, 'journal.db'));
    db.exec(`INSERT INTO journal_migration (name, timestamp) VALUES ('9999-of-a-later-day', '2031-01-01')`);
    db.close();
    expect(await journal({ DATA_DIR: later })).toMatchObject({
      state: 'wrong',
      says: expect.stringMatching(/was written by a later version \(9999-of-a-later-day\)$/),
      mend: expect.stringMatching(/^install that version again/),
    });
  });
});

describe.skipIf(!hasPostgres)('check of a journal in PostgreSQL', () => {
  let postgres: Postgres;
  beforeAll(async () => {
    postgres = await startPostgres();
  });
  afterAll(() => postgres?.remove());

  async function run(url: string, ...statements: string[]): Promise<void> {
    const client = new Client({ connectionString: url });
    await client.connect();
    try {
      for (const statement of statements) await client.query(statement);
    } finally {
      await client.end();
    }
  }

  test('is content before the first start and after it, and makes nothing', async () => {
    const JOURNAL_URL = await postgres.database();
    expect(await journal({ JOURNAL_URL })).toMatchObject({
      state: 'ok',
      says: expect.stringMatching(/ \(PostgreSQL \d+\) lets us make tables/),
    });
    const opened = await openPostgresJournal(JOURNAL_URL);
    await opened.close();
    expect(await journal({ JOURNAL_URL })).toMatchObject({
      state: 'ok',
      says: expect.stringMatching(/ can be read and written$/),
    });
    await expect(run(JOURNAL_URL, 'SELECT * FROM branhearth_check')).rejects.toThrow(/does not exist/);
  });

  test('says what to do about an unknown user, an unknown database, missing rights, read-only and nothing there', async () => {
    const url = await postgres.database();
    await run(url, 'CREATE ROLE guest LOGIN', 'REVOKE CREATE ON SCHEMA public FROM PUBLIC');
    const with_ = (change: (address: URL) => void) => {
      const address = new URL(url);
      change(address);
      return address.href;
    };
    const cases: [string, RegExp, RegExp][] = [
      [with_((one) => (one.username = 'nobody')), /28000/, /BRANHEARTH_JOURNAL_URL/],
      [with_((one) => (one.pathname = '/none')), /3D000/, /createdb/],
      [with_((one) => (one.username = 'guest')), /42501/, /ALTER DATABASE/],
      [with_((one) => (one.search = '?options=-c%20default_transaction_read_only%3Don')), /25006/, /takes writes/],
      [with_((one) => (one.port = '9')), /ECONNREFUSED/, /^start PostgreSQL there/],
    ];
    for (const [JOURNAL_URL, says, mend] of cases) {
      expect(await journal({ JOURNAL_URL })).toMatchObject({
        state: 'wrong',
        says: expect.stringMatching(says),
        mend: expect.stringMatching(mend),
      });
    }
  });
});
