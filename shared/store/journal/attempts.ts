/** Attempts to sign in, counted where every process of the server sees them. */
import { sql } from 'kysely';
import { lastEpochMs } from '../../epoch.ts';
import type { PeopleJournal } from '../people-journal.ts';
import type { JournalBase, JournalTransaction } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';
import { rowId } from './row-schemas.ts';

const forgottenAfterMs = 86_400_000;
const mostFailures = 1e9;

export const countedPlan: RowPlan<'attempt', { key: string; openAtMs: number }> = {
  table: 'attempt',
  toRecord: (row) => ({ key: row.key, openAtMs: row.open_at_ms }),
};

export function journalAttempts(base: JournalBase): PeopleJournal['attempts'] {
  return {
    async take(counts, nowMs, quietMs) {
      let waitMs = 0;
      await base.write(async (transaction) => {
        await forget(base, transaction, nowMs - forgottenAfterMs);
        const keys = counts.map(({ key }) => key);
        const known = await transaction.selectFrom('attempt').selectAll().where('key', 'in', keys).execute();
        const openAtMs = Math.max(0, ...base.rows.all(countedPlan, known).map((one) => one.openAtMs));
        if (openAtMs > nowMs) {
          waitMs = openAtMs - nowMs;
          return;
        }
        const counted = new Map<string, number>();
        for (const { key, delayMs } of counts) {
          const { failures } = await transaction
            .insertInto('attempt')
            .values({ key, failures: 1, last_at_ms: nowMs, open_at_ms: 0 })
            .onConflict((conflict) =>
              conflict.column('key').doUpdateSet({
                failures: sql<number>`CASE WHEN attempt.last_at_ms < ${nowMs - quietMs} THEN 1 ELSE attempt.failures + 1 END`,
                last_at_ms: nowMs,
              }),
            )
            .returning('failures')
            .executeTakeFirstOrThrow();
          counted.set(key, failures);
          await transaction
            .updateTable('attempt')
            .set({ open_at_ms: nowMs + delayMs(failures, counted) })
            .where('key', '=', key)
            .execute();
        }
      });
      return waitMs;
    },

    succeeded: (forget, giveBack) =>
      base.write(async (transaction) => {
        if (forget.length > 0)
          await transaction
            .deleteFrom('attempt')
            .where('key', 'in', [...forget])
            .execute();
        if (giveBack.length === 0) return;
        await transaction
          .updateTable('attempt')
          .set({ failures: sql<number>`failures - 1`, open_at_ms: 0 })
          .where('key', 'in', [...giveBack])
          .where('failures', '>', 0)
          .execute();
      }),
  };
}

/** Counts of long ago, and those that cannot be read: they would hold nobody back, or somebody for ever. */
async function forget(base: JournalBase, transaction: JournalTransaction, beforeMs: number): Promise<void> {
  const forgotten = await transaction
    .deleteFrom('attempt')
    .where((one) =>
      one.or([
        one('last_at_ms', '<', beforeMs),
        // To SQLite every text and every blob is more than any number.
        one('last_at_ms', '>', lastEpochMs),
        one('open_at_ms', '<', 0),
        one('open_at_ms', '>', lastEpochMs),
        one('failures', '<', 0),
        one('failures', '>', mostFailures),
      ]),
    )
    .returning('key')
    .execute();
  for (const row of forgotten) base.unreadable.wasRead('attempt', () => rowId('attempt', row));
}
