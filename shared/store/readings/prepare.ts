import type Database from '../sqlite-driver.ts';
import { migrate } from './schema.ts';

/** Settings of the file of readings, and its tables made or migrated. */
export function prepare(db: Database.Database): void {
  // Heard only before the first table is made: an older file goes on as it is.
  db.pragma('auto_vacuum = INCREMENTAL');
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL'); // in WAL mode NORMAL would lose the newest commits with the power
  db.pragma('wal_autocheckpoint = 4000'); // the inbox rewrites the same pages; copying them back less often costs less
  db.pragma('journal_size_limit = 67108864');
  db.pragma('cache_size = -32768');
  migrate(db);
}
