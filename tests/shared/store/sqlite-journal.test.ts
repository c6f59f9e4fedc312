import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { Kysely } from 'kysely';
import { describe, expect, test } from 'vitest';
import { StoreError } from '../../../shared/errors.ts';
import { message } from '../../../shared/messages/message.ts';
import { journalOver } from '../../../shared/store/journal/journal-kysely.ts';
import { migrateJournal } from '../../../shared/store/journal/migrate.ts';
import { JournalSqliteDialect } from '../../../shared/store/journal/sqlite-dialect.ts';
import { openSqliteJournal } from '../../../shared/store/journal/sqlite-journal.ts';
import type { JournalTables } from '../../../shared/store/journal/tables.ts';
import Database from '../../../shared/store/sqlite-driver.ts';
import { besideSqlite } from './beside-sqlite.ts';
import { journalContract } from './journal-contract.ts';
import { damageContract } from './journal-damage-contract.ts';
import { notificationsContract } from './journal-notifications-contract.ts';
import { branBatch, branPile, yard } from './journal-sample.ts';
import { copyAsAfterCrash, scratchFolder } from './scratch.ts';

journalContract('SQLite journal in memory', async () => ({ journal: await openSqliteJournal(':memory:') }));

journalContract('SQLite journal in a file', async () => {
  const path = join(scratchFolder(), 'journal.db');
  const journal = await openSqliteJournal(path);
  return {
    journal,
    reopen: async () => {
      await journal.close();
      return openSqliteJournal(path);
    },
  };
});

notificationsContract('what people are told, in a SQLite journal', () => openSqliteJournal(':memory:'));

describe('openSqliteJournal()', () => {
  test('refuses a second writer in one line', async () => {
    const path = join(scratchFolder(), 'journal.db');
    const journal = await openSqliteJournal(path);
    await expect(openSqliteJournal(path)).rejects.toThrow(
      /^Cannot open .*journal\.db as only one program may write to it[^\n]*$/,
    );
    await journal.close();
    await (await openSqliteJournal(path)).close();
  });

  test('refuses a file that is no database, and lets go of it', async () => {
    const path = join(scratchFolder(), 'journal.db');
    writeFileSync(path, 'These are notes about bran, and no database at all. '.repeat(100));
    for (const _ of ['first', 'again']) await expect(openSqliteJournal(path)).rejects.toThrow(/not a database of ours/);
  });

  test('keeps what was resolved through a crash', async () => {
    const folder = scratchFolder();
    const journal = await openSqliteJournal(join(folder, 'journal.db'));
    await journal.sites.add(yard);
    await journal.piles.add(branPile, branBatch);
    const copy = copyAsAfterCrash(join(folder, 'journal.db'), join(folder, 'copy.db'));
    const again = await openSqliteJournal(copy);
    expect(await again.batches.open(branPile.id)).toEqual(branBatch);
    await again.close();
    await journal.close();
  });

  test('writes fully synchronised, with foreign keys held', async () => {
    const sqlite = new Database(join(scratchFolder(), 'journal.db'));
    const db = new Kysely<JournalTables>({ dialect: new JournalSqliteDialect(sqlite) });
    await migrateJournal(db);
    expect(sqlite.pragma('synchronous', { simple: true })).toBe(2);
    expect(sqlite.pragma('journal_mode', { simple: true })).toBe('wal');
    expect(sqlite.pragma('foreign_keys', { simple: true })).toBe(1);
    await db.destroy();
  });
});

test('a full disk rejects with a StoreError that keeps the cause, keeps nothing, and goes on when there is room', async () => {
  const sqlite = new Database(join(scratchFolder(), 'journal.db'));
  const db = new Kysely<JournalTables>({ dialect: new JournalSqliteDialect(sqlite) });
  await migrateJournal(db);
  const journal = journalOver(db);
  sqlite.pragma(`max_page_count = ${Number(sqlite.pragma('page_count', { simple: true }))}`);
  const long = 'bran '.repeat(10_000);
  const failure = await journal.settings.set('long', long).catch((error: unknown) => error);
  expect(failure).toBeInstanceOf(StoreError);
  expect((failure as StoreError).message).toMatch(/^Cannot write to the journal as the disk is full/);
  expect((failure as StoreError).cause).toBeInstanceOf(Database.SqliteError);
  await expect(journal.check()).rejects.toThrow(/the disk is full/);
  expect(await journal.settings.get('long')).toBeUndefined();
  sqlite.pragma('max_page_count = 1000000');
  await journal.check();
  await journal.settings.set('long', long);
  expect(await journal.settings.get('long')).toBe(long);
  await journal.close();
});

test('a row of the audit trail can be neither changed nor removed, whoever holds the file', async () => {
  const path = join(scratchFolder(), 'journal.db');
  const journal = await openSqliteJournal(path);
  await journal.audit.add({
    id: '1',
    atMs: 1,
    personId: null,
    personName: 'Ada',
    via: 'session',
    what: message('audit.did.laid-pile'),
    subject: null,
    address: null,
    before: null,
    after: null,
  });
  await journal.close();
  const db = new Database(path);
  for (const statement of [`UPDATE audit SET person_name = 'Ben'`, 'DELETE FROM audit']) {
    expect(() => db.exec(statement)).toThrow('the audit trail is only ever added to');
  }
  db.close();
});

test('a batch whose recipe is not ours is read as if none had been given, and named as unreadable', async () => {
  const path = join(scratchFolder(), 'journal.db');
  const journal = await openSqliteJournal(path);
  await journal.sites.add(yard);
  await journal.piles.add(branPile, branBatch);
  await journal.close();
  const db = new Database(path);
  db.exec(`UPDATE batch SET recipe = '{"material":"gold"}'`);
  db.close();
  const again = await openSqliteJournal(path);
  expect(await again.batches.list()).toEqual([{ ...branBatch, recipe: {} }]);
  expect(again.unreadable.list()).toMatchObject([
    { table: 'batch', id: branBatch.id, column: 'recipe', pileId: branPile.id, partly: true },
  ]);
  await again.close();
});

damageContract('a damaged journal in SQLite', {
  async open() {
    const path = join(mkdtempSync(join(tmpdir(), 'branhearth-damage-')), 'journal.db');
    const journal = await openSqliteJournal(path);
    return {
      journal,
      beside: besideSqlite(path),
      close: async () => {
        await journal.close();
        rmSync(dirname(path), { recursive: true });
      },
    };
  },
});
