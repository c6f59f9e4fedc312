/**
 * One writer per database file, whatever else runs on the machine. It never keeps others from reading: it locks a file
 * beside the database, so a backup can run meanwhile.
 */

import { StoreError } from '../errors.ts';
import Database from './sqlite-driver.ts';
import { storeError } from './store-error.ts';

export interface Hold {
  release(): void;
}

/** How long a process that is just ending may take to let go [ms]. */
const patienceMs = 500;

/** @throws {StoreError} when another process (or another store of this one) holds the file. */
export function holdFile(path: string): Hold {
  let lock: Database.Database | undefined;
  try {
    // An open exclusive transaction is a kernel lock: kill -9 ends it too, which a file with a process id would survive.
    lock = new Database(`${path}.lock`, { timeout: patienceMs });
    lock.exec('BEGIN EXCLUSIVE');
  } catch (cause) {
    lock?.close();
    if (isHeld(cause)) {
      throw new StoreError(`Cannot open ${path} as only one program may write to it: another one has it open`, {
        cause,
      });
    }
    throw storeError(`open ${path}.lock`, cause);
  }
  const held = lock;
  return { release: () => held.close() };
}

function isHeld(cause: unknown): boolean {
  return cause instanceof Database.SqliteError && cause.code.startsWith('SQLITE_BUSY');
}
