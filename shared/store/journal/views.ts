/** Every pile as its watcher last saw it, for the processes that do not watch it. */
import { type PileSummary, pileSummarySchema } from '../../contracts/piles.ts';
import type { Journal } from '../journal.ts';
import type { JournalBase } from './journal-base.ts';
import { mustHold } from './leases.ts';
import { sealed, unsealed } from './sealed.ts';

/** PostgreSQL takes at most 8000 bytes in one piece of news. */
const toldAtOnce = 50;

function summaryFrom(text: string): PileSummary | null {
  try {
    return pileSummarySchema.nullable().catch(null).parse(JSON.parse(text));
  } catch {
    return null;
  }
}

export function journalViews(base: JournalBase): Journal['views'] {
  const { engine } = base;
  return {
    keep: (lease, views) =>
      base.writeBesideOthers(async (transaction) => {
        await mustHold(engine, transaction, lease);
        const { nowMs } = await transaction.selectNoFrom(engine.nowMs.as('nowMs')).executeTakeFirstOrThrow();
        for (const { pileId, summary, told, course } of views) {
          const seen = {
            changed_ms: nowMs,
            summary: JSON.stringify(summary),
            told: sealed(told),
            ...(course !== undefined && { course: sealed(course) }),
          };
          await transaction
            .insertInto('pile_view')
            .values({ pile_id: pileId, course: sealed(null), ...seen })
            .onConflict((conflict) => conflict.column('pile_id').doUpdateSet(seen))
            .execute();
        }
        for (let from = 0; from < views.length; from += toldAtOnce) {
          const ids = views.slice(from, from + toldAtOnce).map(({ pileId }) => pileId);
          await engine.tell(transaction, 'views', ids.join(','));
        }
      }),

    list: (pileIds) =>
      base.read(async (db) => {
        if (pileIds?.length === 0) return [];
        const all = db.selectFrom('pile_view').select(['pile_id', 'changed_ms', 'summary']).orderBy('pile_id');
        const rows = await (pileIds ? all.where('pile_id', 'in', [...pileIds]) : all).execute();
        return rows.map((row) => ({
          pileId: row.pile_id,
          changedMs: row.changed_ms,
          summary: summaryFrom(row.summary),
        }));
      }),

    judged: (pileId) =>
      base.read(async (db) => {
        const row = await db
          .selectFrom('pile_view')
          .select(['told', 'course'])
          .where('pile_id', '=', pileId)
          .executeTakeFirst();
        return row && { told: unsealed(row.told)?.value ?? null, course: unsealed(row.course)?.value ?? null };
      }),

    forget: (pileId) =>
      base.writeBesideOthers(async (transaction) => {
        await transaction.deleteFrom('pile_view').where('pile_id', '=', pileId).execute();
      }),
  };
}
