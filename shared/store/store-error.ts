/** What a database reports, as a sentence a person can act on. */
import { dirname, resolve } from 'node:path';
import { DamagedFileError, StoreError } from '../errors.ts';
import { postgresReason } from './postgres-error.ts';
import Database from './sqlite-driver.ts';

const reasons: readonly [codePrefix: string, reason: string][] = [
  ['SQLITE_FULL', 'the disk is full'],
  ['SQLITE_BUSY', 'another program is writing to the file'],
  ['SQLITE_LOCKED', 'another program is writing to the file'],
  ['SQLITE_CORRUPT', 'the file is damaged'],
  ['SQLITE_NOTADB', 'the file is not a database of ours, or is damaged'],
  ['SQLITE_READONLY', 'the file may only be read'],
  ['SQLITE_CANTOPEN', 'the file cannot be opened'],
  ['SQLITE_PERM', 'the file may not be used by this user'],
  ['SQLITE_IOERR', 'the disk reported an error'],
];

/**
 * @param attempt what was tried, as in "Cannot <attempt> as ...".
 * @param file The database file, where there is one.
 */
export function storeError(attempt: string, cause: unknown, file?: string): StoreError {
  if (cause instanceof StoreError) return cause;
  if (file !== undefined && isDamage(cause)) {
    const named = attempt.includes(file) ? '' : ` (${resolve(file)})`;
    const mend = `npm run restore -- BACKUP.tar.gz --into ${dirname(resolve(file))} --replace`;
    return new DamagedFileError(
      `Cannot ${attempt} as ${reasonOf(cause)}${named}; put your newest backup back with \`${mend}\`, which moves what lies there aside`,
      { cause },
    );
  }
  return new StoreError(`Cannot ${attempt} as ${reasonOf(cause)}`, { cause });
}

function isDamage(cause: unknown): boolean {
  return cause instanceof Database.SqliteError && /^SQLITE_(CORRUPT|NOTADB)/.test(cause.code);
}

function reasonOf(cause: unknown): string {
  if (cause instanceof Database.SqliteError) {
    const known = reasons.find(([prefix]) => cause.code.startsWith(prefix));
    return known ? `${known[1]}: ${cause.code}` : `the database refused: ${cause.code} ${cause.message}`;
  }
  return postgresReason(cause) ?? `the store failed: ${cause instanceof Error ? cause.message : String(cause)}`;
}
