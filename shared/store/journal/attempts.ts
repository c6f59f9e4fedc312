/** Attempts to sign in, counted where every process of the server sees them. */
import { sql } from 'kysely';
import type { PeopleJournal } from '../people-journal.ts';
import type { JournalBase } from './journal-base.ts';

const forgottenAfterMs = 86_400_000;

export function journalAttempts(base: JournalBase): PeopleJournal['attempts'] {
  return {
    async take(counts, nowMs, quietMs) {
      let waitMs = 0;
      await base.write(async (transaction) => {
        const waiting = await transaction
          .selectFrom('attempt')
          .select('open_at_ms')
          .where(
            'key',
            'in',
            counts.map(({ key }) => key),
          )
          .where('open_at_ms', '>', nowMs)
          .execute();
        if (waiting.length > 0) {
          waitMs = Math.max(...waiting.map((row) => row.open_at_ms)) - nowMs;
          return;
        }
        await transaction
          .deleteFrom('attempt')
          .where('last_at_ms', '<', nowMs - forgottenAfterMs)
          .execute();
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
