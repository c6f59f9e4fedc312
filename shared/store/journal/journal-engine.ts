/**
 * The little in which the databases under a journal differ. It never lets two writers check the same rule at the same
 * time: SQLite has one writer, PostgreSQL a lock of ours.
 */
import { type RawBuilder, sql, type Transaction } from 'kysely';
import type { JournalNews } from '../journal.ts';
import type { NewsLine } from '../postgres-news.ts';
import type { JournalTables } from './tables.ts';

export interface JournalEngine {
  readonly kind: 'sqlite' | 'postgres';
  /** Waits until no other transaction that checks rules is under way; ends with the transaction. */
  alone(transaction: Transaction<JournalTables>): Promise<void>;
  /** The database's clock [epoch ms]: the same for all processes, whatever their machines say. */
  readonly nowMs: RawBuilder<number>;
  /** Tells the other processes once the transaction is committed. */
  notify(transaction: Transaction<JournalTables>, topic: string, about: string): Promise<void>;
  /** Hears the others' news, until closed. */
  hear(heard: (news: JournalNews) => void): NewsLine;
}

export const sqliteEngine: JournalEngine = {
  kind: 'sqlite',
  alone: async () => {}, // BEGIN IMMEDIATE has waited already
  nowMs: sql<number>`CAST(unixepoch('subsec') * 1000 AS INTEGER)`,
  notify: async () => {}, // one process has the file
  hear: () => ({ close: async () => {} }),
};
