/** What is tried of a database file that is only inspected. */
import Database from './sqlite-driver.ts';

/** @throws {Database.SqliteError} as SQLite itself does for what it stumbles over. */
export function mustBeWhole(db: Database.Database): void {
  const [found] = db.prepare<[], string>('PRAGMA quick_check(1)').pluck().all();
  if (found !== 'ok') throw new Database.SqliteError(found ?? 'nothing said', 'SQLITE_CORRUPT');
}

export function writeAndTakeBack(db: Database.Database, statement: string): void {
  db.exec('BEGIN IMMEDIATE');
  try {
    db.exec(statement);
  } finally {
    if (db.inTransaction) db.exec('ROLLBACK');
  }
}
