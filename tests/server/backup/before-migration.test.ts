/** An update keeps the way back: from every state that a released version left behind. */
import { readdirSync, readFileSync } from 'node:fs';
import { mkdir, readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { restoreBackup } from '../../../server/backup/restore-backup.ts';
import { migrations } from '../../../shared/store/journal/migrate.ts';
import { olderFiles } from '../../../shared/store/open/older-files.ts';
import { steps } from '../../../shared/store/readings/schema.ts';
import Database from '../../../shared/store/sqlite-driver.ts';
import { makeDataDir, openTestInstallation } from '../../helpers/open-test-server.ts';

const nowMs = Date.UTC(2031, 5, 1, 12);
const frozen = new URL('../../shared/store/versions/', import.meta.url).pathname;
const states = readdirSync(frozen).filter((name) => name.endsWith('.sql'));
const newest = [`journal-${Object.keys(migrations).at(-1)}.sql`, `readings-${steps.length}.sql`];
let folder: string;
let dataDir: string;
let remove: () => Promise<void>;

beforeEach(async () => {
  ({ dataDir: folder, remove } = await makeDataDir());
  dataDir = join(folder, 'data');
  await mkdir(dataDir);
});
afterEach(() => remove());

function lay(state: string): string {
  const name = state.startsWith('journal') ? 'journal.db' : 'readings.db';
  const db = new Database(join(dataDir, name));
  db.pragma('foreign_keys = OFF');
  db.exec(readFileSync(join(frozen, state), 'utf8'));
  db.close();
  return name;
}

const schemaOf = (path: string) => {
  const db = new Database(path, { readonly: true });
  const rows = db.prepare('SELECT sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY name').pluck().all();
  db.close();
  return rows;
};

describe.each(states.filter((state) => !newest.includes(state)))('data left as %s', (state) => {
  test('are backed up before they are brought to the tables of today, and that backup holds them as they were', async () => {
    const name = lay(state);
    const before = schemaOf(join(dataDir, name));
    expect(olderFiles(dataDir)).toEqual([name]);
    const one = await openTestInstallation(dataDir);
    await one.close();
    expect(olderFiles(dataDir)).toEqual([]);
    const [file = ''] = await readdir(join(dataDir, 'backups'));
    expect(file).toMatch(/^before-.+\.tar\.gz$/);
    const back = join(folder, 'back');
    await restoreBackup(join(dataDir, 'backups', file), back, false, nowMs);
    expect(schemaOf(join(back, name))).toEqual(before);
    // Nor is there another one at the next start.
    await (await openTestInstallation(dataDir)).close();
    expect(await readdir(join(dataDir, 'backups'))).toEqual([file]);
  });
});

test('data of today, and a folder that is new, are not backed up at the start', async () => {
  await (await openTestInstallation(dataDir)).close();
  await (await openTestInstallation(dataDir)).close();
  expect(await readdir(dataDir)).not.toContain('backups');
});

test('a journal that a newer program wrote is refused in one line that names its version, and left as it is', async () => {
  await (await openTestInstallation(dataDir)).close();
  const path = join(dataDir, 'journal.db');
  const db = new Database(path);
  db.exec("INSERT INTO journal_migration VALUES ('9999-from-later', '2040-01-01')");
  db.exec("UPDATE setting SET value = '7.1.0' WHERE key = 'program.version'");
  db.close();
  await expect(openTestInstallation(dataDir)).rejects.toThrow(
    /^Cannot open the journal as [^\n]*a later one \(7\.1\.0\) wrote them[^\n]*$/,
  );
  expect(olderFiles(dataDir)).toEqual([]);
  await rm(join(dataDir, 'journal.db'));
});
