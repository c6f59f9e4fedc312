/** Which databases of a data folder an earlier version wrote last, so that opening them would change their tables. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { migrations } from '../journal/migrate.ts';
import { steps } from '../readings/schema.ts';
import Database from '../sqlite-driver.ts';

/** @returns Names of files; a file that is new, or that cannot be read, is none of them: opening it says what it is. */
export function olderFiles(dataDir: string): ('journal.db' | 'readings.db')[] {
  return [
    ...(isOlder(join(dataDir, 'journal.db'), hasPendingMigrations) ? (['journal.db'] as const) : []),
    ...(isOlder(join(dataDir, 'readings.db'), hasPendingSteps) ? (['readings.db'] as const) : []),
  ];
}

function isOlder(path: string, look: (db: Database.Database) => boolean): boolean {
  if (!existsSync(path)) return false;
  let db: Database.Database | undefined;
  try {
    db = new Database(path, { readonly: true });
    return look(db);
  } catch {
    return false;
  } finally {
    db?.close();
  }
}

function hasPendingSteps(db: Database.Database): boolean {
  const version = Number(db.pragma('user_version', { simple: true }));
  return version > 0 && version < steps.length;
}

function hasPendingMigrations(db: Database.Database): boolean {
  const names = db.prepare<[], string>('SELECT name FROM journal_migration').pluck().all();
  return names.length > 0 && Object.keys(migrations).some((name) => !names.includes(name));
}
