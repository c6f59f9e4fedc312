/** In what PostgreSQL differs under a journal. */
import { sql } from 'kysely';
import { hearNews, newsChannel } from '../postgres-news.ts';
import type { JournalEngine } from './journal-engine.ts';

/** Ours among the advisory locks of a database that others may use too: "bran" in ASCII. */
export const journalLockClass = 0x6272616e;
export const journalLocks = { migrate: 1, write: 2 } as const;

export const postgresEngine = (url: string): JournalEngine => ({
  kind: 'postgres',
  async alone(transaction) {
    await sql`SELECT pg_advisory_xact_lock(${sql.lit(journalLockClass)}, ${sql.lit(journalLocks.write)})`.execute(
      transaction,
    );
  },
  nowMs: sql<number>`CAST(extract(epoch FROM clock_timestamp()) * 1000 AS bigint)`,
  async notify(transaction, topic, about) {
    await sql`SELECT pg_notify(${newsChannel}, ${`${topic} ${about}`})`.execute(transaction);
  },
  hear: (heard) => hearNews(url, heard),
});
