/** The file of readings, only inspected: a server may be at work on it meanwhile. */
import { existsSync } from 'node:fs';
import { steps, stepsOf } from '../readings/schema.ts';
import Database from '../sqlite-driver.ts';
import { storeError } from '../store-error.ts';
import { mustBeWhole, writeAndTakeBack } from '../try-sqlite.ts';

/** Whether it can be read and written, and whose tables it has. @throws {StoreError} */
export function inspectReadings(path: string): 'none yet' | 'earlier' | 'ours' {
  if (!existsSync(path)) return 'none yet';
  let db: Database.Database | undefined;
  try {
    db = new Database(path, { timeout: 2_000, fileMustExist: true });
    mustBeWhole(db);
    const version = stepsOf(db);
    if (version > 0) writeAndTakeBack(db, 'INSERT INTO pulse VALUES (zeroblob(1))');
    return version < steps.length ? 'earlier' : 'ours';
  } catch (cause) {
    throw storeError(`read the readings in ${path}`, cause, path);
  } finally {
    db?.close();
  }
}
