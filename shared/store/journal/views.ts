/** Every pile as its watcher last saw it, for the processes that do not watch it. */
import { sql } from 'kysely';
import { pileSummarySchema } from '../../contracts/piles.ts';
import type { Journal, PileViewRecord } from '../journal.ts';
import type { JournalBase } from './journal-base.ts';
import { mustHold } from './leases.ts';
import type { RowPlan } from './read-rows.ts';
import { sealed, unsealed } from './sealed.ts';

/** PostgreSQL takes at most 8000 bytes in one notification. */
const viewsAtOnce = 50;

/** A cache: without its summary a pile is shown as it was until its watcher has written it anew. */
const viewPlan: RowPlan<'pile_view', PileViewRecord> = {
  table: 'pile_view',
  toRecord: (row, json) => ({
    pileId: row.pile_id,
    changedMs: row.changed_ms,
    summary: json('summary', row.summary, pileSummarySchema.nullable(), null),
  }),
  standIns: () => ({ changed_ms: 0, summary: 'null', assessment: '', band: '' }),
};

export function journalViews(base: JournalBase): Journal['views'] {
  const { engine } = base;
  return {
    keep: (lease, views) =>
      base.writeBesideOthers(async (transaction) => {
        await mustHold(engine, transaction, lease);
        const { nowMs } = await transaction.selectNoFrom(engine.nowMs.as('nowMs')).executeTakeFirstOrThrow();
        for (const { pileId, summary, assessment, band } of views) {
          const seen = {
            changed_ms: nowMs,
            summary: JSON.stringify(summary),
            assessment: sealed(assessment),
            ...(band !== undefined && { band: sealed(band) }),
          };
          await transaction
            .insertInto('pile_view')
            .values({ pile_id: pileId, band: sealed(null), ...seen })
            .onConflict((conflict) => conflict.column('pile_id').doUpdateSet(seen))
            .execute();
        }
        for (let from = 0; from < views.length; from += viewsAtOnce) {
          const ids = views.slice(from, from + viewsAtOnce).map(({ pileId }) => pileId);
          await engine.notify(transaction, 'views', ids.join(','));
        }
      }),

    list: (pileIds) =>
      base.read(async (db) => {
        if (pileIds?.length === 0) return [];
        // What is known in full of a pile is large, and is read for one pile at a time.
        const all = db
          .selectFrom('pile_view')
          .select(['pile_id', 'changed_ms', 'summary'])
          .select([sql<string>`''`.as('assessment'), sql<string>`''`.as('band')])
          .orderBy('pile_id');
        const rows = await (pileIds ? all.where('pile_id', 'in', [...pileIds]) : all).execute();
        return base.rows.all(viewPlan, rows);
      }),

    judged: (pileId) =>
      base.read(async (db) => {
        const row = await db
          .selectFrom('pile_view')
          .select(['assessment', 'band'])
          .where('pile_id', '=', pileId)
          .executeTakeFirst();
        return row && { assessment: unsealed(row.assessment)?.value ?? null, band: unsealed(row.band)?.value ?? null };
      }),

    forget: (pileId) =>
      base.writeBesideOthers(async (transaction) => {
        await transaction.deleteFrom('pile_view').where('pile_id', '=', pileId).execute();
      }),
  };
}
