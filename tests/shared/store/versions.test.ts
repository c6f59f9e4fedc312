/** Files as released versions wrote them (versions/*.sql) must open and hold all they held; dump-sql.ts freezes them. */

import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Kysely } from 'kysely';
import { describe, expect, test } from 'vitest';
import { message, verbatim } from '../../../shared/messages/message.ts';
import { migrateJournal, migrations } from '../../../shared/store/journal/migrate.ts';
import { JournalSqliteDialect } from '../../../shared/store/journal/sqlite-dialect.ts';
import { openSqliteJournal } from '../../../shared/store/journal/sqlite-journal.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { migrate, steps } from '../../../shared/store/readings/schema.ts';
import { openSqliteReadings } from '../../../shared/store/readings/sqlite-readings.ts';
import Database from '../../../shared/store/sqlite-driver.ts';
import { beginMs, dayMs, someSeries } from './arbitrary-readings.ts';
import { schemaOf } from './dump-sql.ts';
import {
  bedUse,
  branBatch,
  branLot,
  branPile,
  judged,
  laidFrom,
  oakLot,
  raised,
  skinPhoto,
  smelt,
  smeltAgain,
  soilBatch,
  soilPile,
  terrace,
  tooWarm,
  turned,
  usedOn,
  watered,
  yard,
} from './journal-sample.ts';
import { scratchFolder } from './scratch.ts';
import { frozenReadings } from './versions/frozen-readings.ts';

const frozenPath = (name: string): string => new URL(`versions/${name}.sql`, import.meta.url).pathname;

/** A file of its own, as the version named wrote it. */
function build(name: string): string {
  const path = join(scratchFolder(), 'frozen.db');
  const db = new Database(path);
  db.pragma('foreign_keys = OFF');
  db.exec(readFileSync(frozenPath(name), 'utf8'));
  db.close();
  return path;
}

function frozenSchema(name: string): string[] {
  const db = new Database(build(name));
  const schema = schemaOf(db);
  db.close();
  return schema;
}

describe('journal versions', () => {
  const names = Object.keys(migrations);

  for (const name of names) {
    test(`${name}: a journal it wrote opens and holds all it held`, async () => {
      expect(existsSync(frozenPath(`journal-${name}`))).toBe(true);
      const journal = await openSqliteJournal(build(`journal-${name}`));
      await expectSampleFarm(journal);
      if (name >= '0002') await expectSampleLineage(journal);
      if (name >= '0003') await expectSamplePeople(journal);
      if (name >= '0004') expect(await journal.probeKeys.list()).toMatchObject([{ id: 'key-1', probe: 'bran-core' }]);
      if (name >= '0005') await expectSampleNotifications(journal);
      if (name >= '0007') {
        expect(await journal.links.open(beginMs)).toMatchObject([{ id: 'link-1', madeById: 'person-1' }]);
        expect(await journal.notifications.devices.list()).toMatchObject([{ id: 'device-1', madeWith: 'session-1' }]);
      }
      if (name >= '0008') {
        expect(await journal.notifications.mailAddresses.list()).toMatchObject([
          { personId: 'person-1', address: 'hand@saltmere.example', standing: 'confirmed' },
        ]);
      }
      if (name >= '0009') expect(await journal.people.get('person-1')).toMatchObject({ language: 'en' });
      if (name >= '0012') await expectSampleCodes(journal);
      if (name >= '0010') {
        expect(await journal.airAhead.get(yard.id)).toMatchObject({ source: 'a service', points: [{ tempC: 12.5 }] });
      }
      if (name >= '0014') expect((await journal.mappings.list())[1]).toEqual(notForUs);
      const verdicts = await journal.entries.list({ kinds: ['verdict'], limit: 9 });
      expect(verdicts).toEqual(name >= '0013' ? [judged] : []);
      await journal.close();
    });

    test(`${name}: still makes what it made when it was released`, async () => {
      const sqlite = new Database(':memory:');
      const db = new Kysely<unknown>({ dialect: new JournalSqliteDialect(sqlite) });
      await migrateJournal(db, name);
      expect(schemaOf(sqlite)).toEqual(frozenSchema(`journal-${name}`));
      await db.destroy();
    });
  }

  test('0007: of links made before, those of owners and of nobody by name go on, those of anybody else end', async () => {
    const path = build('journal-0006-leases-and-views');
    const db = new Database(path);
    const person = db.prepare(`INSERT INTO person VALUES (?, ?, ?, ?, 'hash', 1, ?)`);
    person.run('gone', 'Gone', 'gone', 'owner', 5);
    person.run('kim', 'Kim', 'kim', 'keeper', null);
    const link = db.prepare(`INSERT INTO link VALUES (?, ?, ?, 'keeper', NULL, ?, 1, 4102444800000)`);
    for (const maker of ['Yard hand', 'Gone', 'Kim', 'Renamed since', 'This machine', 'API token'])
      link.run(`digest of ${maker}`, maker, 'invitation', maker);
    link.run('digest of setup', 'setup', 'setup', 'the start of the server');
    const device = db.prepare(`INSERT INTO push_device VALUES (?, ?, ?, 'key', 'secret', 'phone', 1, NULL)`);
    for (const who of ['person-1', 'gone']) device.run(`phone of ${who}`, who, `https://push.example/${who}`);
    db.close();
    await (await openSqliteJournal(path)).close();
    const after = new Database(path);
    expect(after.prepare('SELECT id, made_by_id FROM link ORDER BY id').raw().all()).toEqual([
      ['API token', 'api-token'],
      ['This machine', 'here'],
      ['Yard hand', 'person-1'],
      ['setup', null],
    ]);
    expect(after.prepare('SELECT id, made_with FROM push_device').raw().all()).toEqual([['phone of person-1', null]]);
    after.close();
  });

  test('0008: addresses of before go on; one from which a warning was acknowledged counts as confirmed', async () => {
    const path = build('journal-0007-what-ends-together');
    const db = new Database(path);
    const preferences = db.prepare('INSERT OR REPLACE INTO telling VALUES (?, ?)');
    const prefer = (who: string, address: unknown) =>
      preferences.run(who, JSON.stringify({ email: { on: true, address } }));
    for (const who of ['Used', 'unused', 'moved']) prefer(who, `${who}@x.example`);
    prefer('none', '');
    prefer('odd', 7);
    preferences.run('broken', 'no JSON');
    db.exec(
      `INSERT INTO notice VALUES ('n', 'n', 'house', 'first-raise', 1, NULL, NULL, NULL, NULL, 1, 1, '{}', 'spread', NULL, NULL, NULL)`,
    );
    const message = db.prepare(
      `INSERT INTO message VALUES (?, 'n', ?, 'name', 'email', ?, ?, 1, 'sent', NULL, 1, 1, 1, 0, 1, NULL, NULL, NULL)`,
    );
    const link = db.prepare(`INSERT INTO told_link VALUES (?, 'n', ?, 'name', 'email', 9, ?)`);
    for (const [who, address, usedMs] of [
      ['Used', 'Used@x.example', 7],
      ['unused', 'unused@x.example', null],
      ['moved', 'earlier@x.example', 7],
    ] as const) {
      message.run(`m-${who}`, who, address, address);
      link.run(`l-${who}`, who, usedMs);
    }
    db.close();
    await (await openSqliteJournal(path)).close();
    const after = new Database(path);
    const kept = after
      .prepare('SELECT person_id, address, standing, since_ms FROM mail_address ORDER BY person_id')
      .raw();
    expect(kept.all()).toEqual([
      ['Used', 'used@x.example', 'confirmed', 7],
      ['moved', 'moved@x.example', 'before', 0],
      ['unused', 'unused@x.example', 'before', 0],
    ]);
    after.close();
  });

  test('0011: whatever names the server as a recipient or a subject goes on under its new id, and nothing is lost', async () => {
    const path = build('journal-0010-air-ahead');
    const db = new Database(path);
    db.pragma('foreign_keys = ON');
    const facts = JSON.stringify({ said: { code: 'a' }, todo: { code: 'b' }, short: { code: 'c' } });
    const notice = db.prepare(
      `INSERT INTO notice VALUES (?, ?, ?, 'first-raise', 1, NULL, NULL, NULL, ?, 1, 1, ?, 'new', NULL, NULL, NULL)`,
    );
    notice.run('trouble', 'house/disk/1/first-raise', 'house', null, facts);
    notice.run('test', 'test', 'person', 'house', '{}');
    db.exec(`INSERT INTO message VALUES
      ('m', 'trouble', 'house', 'the server', 'email', 'a@x.example', 'a@x.example', 1, 'sent', NULL, 1, 1, 1, 0, 1, NULL, NULL, NULL)`);
    db.exec(`INSERT INTO message_attempt VALUES ('m', 1, 1, 5, 'sent', 'taken')`);
    db.exec(
      `INSERT INTO push_device VALUES ('d', 'house', 'https://push.example/d', 'k', 's', 'phone', 1, NULL, NULL)`,
    );
    db.exec(`INSERT INTO mail_address VALUES ('house', 'a@x.example', 'confirmed', 1, NULL, 0)`);
    db.exec(`INSERT INTO told_link VALUES ('digest', 'trouble', 'house', 'the server', 'email', 9, NULL)`);
    db.prepare('INSERT OR REPLACE INTO telling VALUES (?, ?)').run('house', JSON.stringify({ unit: 'F' }));
    db.exec(`INSERT OR REPLACE INTO hand_on VALUES ('${yard.id}', '["person-1","house"]', 20)`);
    db.exec(`INSERT OR REPLACE INTO hand_on VALUES ('broken', 'no JSON, house', 20)`);
    db.exec(`INSERT INTO turn SELECT id, 2, 7 FROM alarm WHERE id = '${tooWarm.id}'`);
    const rowsOf = (file: InstanceType<typeof Database>, table: string) =>
      file.prepare(`SELECT * FROM ${table} ORDER BY 1, 2`).raw().all();
    const renamed = { telling: 'notification_preferences', told_link: 'notification_link', hand_on: 'escalation' };
    const more = { turn: 'escalation_step', pile_ask: 'pile_command', alarm_step: 'alarm_step' };
    const same = Object.fromEntries(
      ['notice', 'message', 'message_attempt', 'push_device', 'mail_address'].map((table) => [table, table]),
    );
    const tables = Object.entries({ ...renamed, ...more, ...same, pile_view: 'pile_view' });
    const before = tables.map(([table]) => rowsOf(db, table));
    db.close();

    const journal = await openSqliteJournal(path);
    const preferences = await journal.notifications.preferences.list();
    expect(preferences.find(({ personId }) => personId === 'server')?.preferences.unit).toBe('F');
    expect((await journal.notifications.escalations.steps([tooWarm.id]))[0]).toMatchObject({ step: 2, atMs: 7 });
    await journal.close();

    // Every row as it was, but for its id; keys and texts keep what stood in them.
    const after = new Database(path);
    const asServer = (row: unknown) =>
      (row as unknown[]).map((value) =>
        value === 'house' ? 'server' : value === '["person-1","house"]' ? '["person-1","server"]' : value,
      );
    for (const [index, [, table]] of tables.entries()) {
      const found = rowsOf(after, table);
      const wanted = (before[index] as unknown[]).map(asServer);
      expect(found.toSorted(byText), table).toEqual(wanted.toSorted(byText));
    }
    expect(rowsOf(after, 'escalation')).toContainEqual(['broken', 'no JSON, house', 20]);
    expect(after.pragma('foreign_key_check')).toEqual([]);
    after.close();
  });

  for (const name of names.filter((one) => one >= '0005' && one < '0012')) {
    test(`0012: of ${name}, a notice that was spread is fanned out, and why a message did not go still says so`, async () => {
      const path = build(`journal-${name}`);
      const db = new Database(path);
      const notice = db.prepare(
        `INSERT INTO notice VALUES (?, ?, 'person', 'test', 1, NULL, NULL, NULL, 'person-1', 1, 1, '{}', ?, NULL, NULL, NULL)`,
      );
      for (const state of ['spread', 'new', 'dropped']) notice.run(`was ${state}`, state, state);
      db.exec(`INSERT INTO message VALUES ('m', 'was spread', 'person-1', 'Yard hand', 'email', 'a@x.example', 'a@x.example',
        1, 'given-up', '550 at 55 °C', 1, 1, 1, 0, 1, NULL, NULL, NULL)`);
      db.exec(`INSERT INTO message_attempt VALUES ('m', 1, 1, 5, 'refused', 'HTTP 307: a redirect')`);
      db.close();
      const journal = await openSqliteJournal(path);
      const { notices } = journal.notifications;
      const states = await Promise.all(['spread', 'new', 'dropped'].map((was) => notices.get(`was ${was}`)));
      expect(states.map((kept) => kept?.state)).toEqual(['fanned-out', 'new', 'dropped']);
      expect(await notices.get('was spread')).toMatchObject({
        messages: [{ reason: verbatim('550 at 55 °C'), attempts: [{ detail: verbatim('HTTP 307: a redirect') }] }],
      });
      await journal.close();
    });
  }

  test('preferences kept as `tellCleared` come back as `notifyCleared`', async () => {
    const path = build('journal-0008-mail-addresses');
    const db = new Database(path);
    db.prepare('INSERT OR REPLACE INTO telling VALUES (?, ?)').run('ada', JSON.stringify({ tellCleared: false }));
    db.close();
    const journal = await openSqliteJournal(path);
    const kept = (await journal.notifications.preferences.list()).find(({ personId }) => personId === 'ada');
    expect(kept?.preferences.notifyCleared).toBe(false);
    await journal.close();
  });

  test('a migration that fails half-way leaves the file as it was', async () => {
    const path = join(scratchFolder(), 'journal.db');
    const db = new Database(path);
    db.exec('CREATE TABLE setting (somebody_elses INTEGER)');
    db.close();
    await expect(openSqliteJournal(path)).rejects.toThrow(/^Cannot bring the journal to the tables of today/);
    const after = new Database(path);
    const tables = after.prepare(`SELECT name FROM sqlite_master WHERE type = 'table'`).pluck().all();
    expect(tables.filter((name) => !String(name).startsWith('journal_migration'))).toEqual(['setting']);
    after.exec('DROP TABLE setting');
    after.close();
    await (await openSqliteJournal(path)).close();
  });

  test('a journal of a later program is refused', async () => {
    const path = build(`journal-${names.at(-1)}`);
    const db = new Database(path);
    db.exec(`INSERT INTO journal_migration VALUES ('9999-later', '2040-01-01T00:00:00.000Z')`);
    db.close();
    await expect(openSqliteJournal(path)).rejects.toThrow(/must be of this program or earlier/);
  });
});

const byText = (a: unknown, b: unknown) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1);

const notForUs = { id: 'mapping-2', filter: 'barn/cat', site: '', probe: '', values: [] };

async function expectSampleFarm(journal: Journal): Promise<void> {
  expect(await journal.sites.list()).toEqual([terrace, yard]);
  expect(await journal.piles.list()).toEqual([branPile, soilPile]);
  expect(await journal.batches.list()).toEqual([
    branBatch,
    { ...soilBatch, endedAtMs: beginMs + dayMs, outcome: 'dry' },
  ]);
  expect(await journal.acts.list(branPile.id)).toEqual([turned, watered]);
  expect(await journal.alarms.open()).toEqual([tooWarm]);
  expect(await journal.alarms.steps(tooWarm.id)).toEqual([raised]);
  expect(await journal.watch.get(branPile.id)).toBeUndefined(); // a cache without a seal is made anew
  expect(await journal.claims.list()).toEqual([
    {
      site: yard.id,
      probe: 'bran-core',
      pileId: branPile.id,
      position: 'core',
      fromMs: beginMs,
      toMs: beginMs + dayMs,
    },
    { site: yard.id, probe: 'bran-two', pileId: branPile.id, position: 'core', fromMs: beginMs + dayMs, toMs: null },
  ]);
  expect(await journal.probes.list()).toEqual([
    { site: yard.id, probe: 'bran-core', online: false, onlineAtMs: beginMs + dayMs, temperatureOffsetC: -0.25 },
  ]);
  expect((await journal.mappings.list())[0]).toMatchObject({
    id: 'mapping-1',
    filter: 'barn/+/t',
    site: yard.id,
    probe: 'barn-{1}',
    values: [{ pointer: '/temp', quantity: 'temperature', unit: 'F', scale: 0.1, offset: 0 }],
    timePointer: '/at',
  });
  expect(await journal.settings.get('units')).toBe('F');
}

async function expectSampleLineage(journal: Journal): Promise<void> {
  expect(await journal.entries.versions(smelt.id)).toEqual([smelt, smeltAgain]);
  expect(await journal.photos.get(skinPhoto.id)).toEqual(skinPhoto);
  expect(await journal.lots.list()).toEqual([oakLot, branLot]);
  expect(await journal.lineage.flows()).toEqual([laidFrom, usedOn]);
  expect(await journal.lineage.uses()).toEqual([bedUse]);
  expect(await journal.lineage.stories()).toMatchObject([{ batchId: branBatch.id, name: 'First heap' }]);
}

async function expectSamplePeople(journal: Journal): Promise<void> {
  expect(await journal.people.list()).toMatchObject([{ id: 'person-1', name: 'Yard hand', role: 'owner' }]);
  expect(await journal.sessions.list()).toMatchObject([{ id: 'session-1', personId: 'person-1' }]);
  const said = { text: 'LAID A PILE', codes: [] };
  const sentence = { what: verbatim('laid a pile'), subject: 'bran-bay', personName: 'Yard hand' };
  expect(await journal.audit.list({ limit: 10, words: said })).toMatchObject([sentence]);
  expect((await journal.audit.list({ limit: 10 })).at(-1)).toMatchObject(sentence);
}

/** What was done, and why a message did not go, as codes. */
async function expectSampleCodes(journal: Journal): Promise<void> {
  expect(await journal.audit.list({ limit: 1 })).toMatchObject([{ what: message('audit.did.signed-out') }]);
  expect(await journal.notifications.notices.get('notice-1')).toMatchObject({
    state: 'fanned-out',
    messages: [
      { reason: message('delivery.device-removed'), attempts: [{ detail: message('delivery.device-removed') }] },
    ],
  });
}

async function expectSampleNotifications(journal: Journal): Promise<void> {
  expect(await journal.notifications.preferences.list()).toMatchObject([
    { personId: 'person-1', preferences: { unit: 'C' } },
  ]);
  expect(await journal.notifications.escalations.list()).toEqual([
    { siteId: yard.id, personIds: ['person-1'], afterMin: 20 },
  ]);
}

describe('readings versions', () => {
  for (const version of steps.map((_, index) => index + 1)) {
    test(`${version}: readings it wrote open, flushed and waiting`, async () => {
      const store = openSqliteReadings(build(`readings-${version}`));
      const rows = await store.rows(someSeries, 0, beginMs + 90 * dayMs, 10_000);
      expect(rows).toHaveLength(frozenReadings.length);
      expect((await store.append(frozenReadings)).duplicateCount).toBe(frozenReadings.length);
      const { columns } = await store.buckets(someSeries, beginMs, beginMs + 90 * dayMs, 10);
      const counted = columns.reduce((sum, { count }) => sum + count.reduce((all, one) => all + one, 0), 0);
      expect(counted).toBe(frozenReadings.length);
      await store.close();
    });

    test(`${version}: still makes what it made when it was released`, () => {
      const db = new Database(':memory:');
      migrate(db, version);
      expect(schemaOf(db)).toEqual(frozenSchema(`readings-${version}`));
      db.close();
    });
  }
});
