/**
 * How every group of the journal reads and writes. It never wraps a ConflictError or a LostLeaseError: those are the
 * caller's to hear.
 */
import type { Kysely, Transaction } from 'kysely';
import { ConflictError, LostLeaseError } from '../../errors.ts';
import { postgresConflict } from '../postgres-error.ts';
import { storeError } from '../store-error.ts';
import { UnreadableRows } from '../unreadable.ts';
import type { JournalEngine } from './journal-engine.ts';
import { RowReader } from './read-rows.ts';
import type { JournalTables } from './tables.ts';

export type JournalDb = Kysely<JournalTables>;
export type JournalTransaction = Transaction<JournalTables>;

export class JournalBase {
  readonly db: JournalDb;
  readonly engine: JournalEngine;
  readonly unreadable = new UnreadableRows();
  readonly rows = new RowReader(this.unreadable);
  readonly #file: string | undefined;
  #writeFailed = false;

  /** @param file Where it lies, for a journal in a file. */
  constructor(db: JournalDb, engine: JournalEngine, file?: string) {
    this.#file = file;
    this.db = db;
    this.engine = engine;
  }

  async read<Result>(run: (db: JournalDb) => Promise<Result>): Promise<Result> {
    try {
      return await run(this.db);
    } catch (cause) {
      throw storeError('read the journal', cause, this.#file);
    }
  }

  /** The only writer at that time, so that what was checked still holds when it is written. */
  write<Result>(run: (transaction: JournalTransaction) => Promise<Result>): Promise<Result> {
    return this.writeBesideOthers(async (transaction) => {
      await this.engine.alone(transaction);
      return run(transaction);
    });
  }

  /** For rows that nobody else writes, or a single statement: several processes do so at the same time. */
  async writeBesideOthers<Result>(run: (transaction: JournalTransaction) => Promise<Result>): Promise<Result> {
    try {
      const result = await this.db.transaction().execute(run);
      this.#writeFailed = false;
      return result;
    } catch (cause) {
      if (cause instanceof ConflictError || cause instanceof LostLeaseError) throw cause;
      const conflict = postgresConflict(cause);
      if (conflict) throw conflict;
      this.#writeFailed = true;
      throw storeError('write to the journal', cause, this.#file);
    }
  }

  /** Asks for the right to write; after a failure it really writes, as a full disk shows in no other way. */
  async check(): Promise<void> {
    if (!this.#writeFailed) {
      await this.write((transaction) => transaction.selectFrom('setting').select('key').limit(1).execute());
      return;
    }
    // Room for more than any one change of ours, taken and given back.
    await this.write((transaction) => setSetting(transaction, 'pulse', '.'.repeat(200_000)));
    await this.write((transaction) => setSetting(transaction, 'pulse', ''));
  }
}

export async function setSetting(transaction: JournalTransaction, key: string, value: string): Promise<void> {
  await transaction
    .insertInto('setting')
    .values({ key, value })
    .onConflict((conflict) => conflict.column('key').doUpdateSet({ value }))
    .execute();
}
