import { existsSync } from 'node:fs';
import Database from '../sqlite-driver.ts';
import { storeError } from '../store-error.ts';
import { mustBeWhole, writeAndTakeBack } from '../try-sqlite.ts';
import type { InspectedJournal } from './inspected-journal.ts';

/** @returns undefined where there is none yet. @throws {StoreError} one line that says why it cannot be read. */
export function inspectSqlite(path: string): InspectedJournal | undefined {
  if (!existsSync(path)) return undefined;
  const attempt = `read the journal in ${path}`;
  const trying = <Result>(what: string, run: () => Result): Result => {
    try {
      return run();
    } catch (cause) {
      throw storeError(what, cause, path);
    }
  };
  const db = trying(attempt, () => new Database(path, { timeout: 2_000, fileMustExist: true }));
  trying(attempt, () => mustBeWhole(db));
  return {
    where: path,
    inFile: true,
    ask: async (question) => trying(attempt, () => db.prepare<[], Record<string, unknown>>(question).all()),
    tryWriting: async () =>
      trying(`write to the journal in ${path}`, () =>
        writeAndTakeBack(db, `INSERT INTO setting (key, value) VALUES ('check', 'check')`),
      ),
    close: async () => {
      db.close();
    },
  };
}
