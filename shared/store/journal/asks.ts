/**
 * shared/store/journal/asks.ts: what processes that do not watch a pile ask of the one that does, and its answers.
 *
 * An ask stands in its table until it is done, so whoever takes a site over finds what was asked of the worker before.
 */
import { sql } from 'kysely';
import type { Journal } from '../journal.ts';
import type { JournalBase } from './journal-base.ts';

export function journalAsks(base: JournalBase): Journal['asks'] {
  const { engine } = base;
  return {
    add: ({ id, site, pileId, ask, askedMs }) =>
      base.write(async (transaction) => {
        const { last } = await transaction
          .selectFrom('pile_ask')
          .select((select) => select.fn.max('place').as('last'))
          .executeTakeFirstOrThrow();
        const row = { id, place: Number(last ?? 0) + 1, site, pile_id: pileId, ask, asked_ms: askedMs };
        await transaction
          .insertInto('pile_ask')
          .values({ ...row, done_ms: null, answer: null })
          .execute();
        await engine.tell(transaction, 'ask', site);
      }),

    waiting: (sites) =>
      base.read(async (db) => {
        if (sites.length === 0) return [];
        const rows = await db
          .selectFrom('pile_ask')
          .selectAll()
          .where('done_ms', 'is', null)
          .where('site', 'in', [...sites])
          .orderBy('place')
          .execute();
        return rows.map((row) => ({
          id: row.id,
          site: row.site,
          pileId: row.pile_id,
          ask: row.ask,
          askedMs: row.asked_ms,
        }));
      }),

    answer: (id, answer) =>
      base.writeBesideOthers(async (transaction) => {
        await transaction.updateTable('pile_ask').set({ done_ms: engine.nowMs, answer }).where('id', '=', id).execute();
        await engine.tell(transaction, 'answer', id);
      }),

    answerTo: (id) =>
      base.read(async (db) => {
        const row = await db.selectFrom('pile_ask').select(['answer']).where('id', '=', id).executeTakeFirst();
        return row?.answer ?? undefined;
      }),

    withdraw: (id) =>
      base.writeBesideOthers(async (transaction) => {
        const { numDeletedRows } = await transaction
          .deleteFrom('pile_ask')
          .where('id', '=', id)
          .where('done_ms', 'is', null)
          .executeTakeFirstOrThrow();
        return numDeletedRows > 0n;
      }),

    clear: (doneForMs) =>
      base.writeBesideOthers(async (transaction) => {
        await transaction
          .deleteFrom('pile_ask')
          .where('done_ms', '<', sql<number>`${engine.nowMs} - ${sql.lit(doneForMs)}`)
          .execute();
      }),
  };
}
