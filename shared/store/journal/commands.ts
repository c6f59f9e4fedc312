/**
 * What processes that do not watch a pile ask of the one that does, and its answers.
 *
 * A command stands in its table until it is done, so whoever takes a site over finds what was asked of the worker before.
 */
import { sql } from 'kysely';
import { pileCommandSchema } from '../../pile-command.ts';
import type { Journal, PileCommandRecord } from '../journal.ts';
import type { JournalBase, JournalTransaction } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';

/** A command that cannot be read is answered too, or whoever asked would wait. */
export const commandPlan: RowPlan<'pile_command', PileCommandRecord> = {
  table: 'pile_command',
  toRecord: (row, json) => ({
    id: row.id,
    site: row.site,
    pileId: row.pile_id,
    command: json('command', row.command, pileCommandSchema.nullable(), null),
    askedMs: row.asked_ms,
  }),
  standIns: () => ({ asked_ms: 0, done_ms: null, answer: null }),
};

async function nextNumber(transaction: JournalTransaction): Promise<number> {
  const { last } = await transaction
    .selectFrom('pile_command')
    .select((select) => select.fn.max('number').as('last'))
    .executeTakeFirstOrThrow();
  return Number(last ?? 0) + 1;
}

export function journalCommands(base: JournalBase): Journal['commands'] {
  const { engine } = base;
  return {
    add: ({ id, site, pileId, command, askedMs }) =>
      base.write(async (transaction) => {
        const text = JSON.stringify(command);
        const row = {
          id,
          number: await nextNumber(transaction),
          site,
          pile_id: pileId,
          command: text,
          asked_ms: askedMs,
        };
        await transaction
          .insertInto('pile_command')
          .values({ ...row, done_ms: null, answer: null })
          .execute();
        await engine.notify(transaction, 'command', site);
      }),

    waiting: (sites) =>
      base.read(async (db) => {
        if (sites.length === 0) return [];
        const waiting = db.selectFrom('pile_command').selectAll().where('done_ms', 'is', null);
        return base.rows.all(
          commandPlan,
          await waiting
            .where('site', 'in', [...sites])
            .orderBy('number')
            .execute(),
        );
      }),

    answer: (id, answer) =>
      base.writeBesideOthers(async (transaction) => {
        const answered = { done_ms: engine.nowMs, answer: JSON.stringify(answer) };
        await transaction.updateTable('pile_command').set(answered).where('id', '=', id).execute();
        await engine.notify(transaction, 'answer', id);
      }),

    answerTo: (id) =>
      base.read(async (db) => {
        const row = await db.selectFrom('pile_command').select(['answer']).where('id', '=', id).executeTakeFirst();
        return row?.answer == null ? undefined : row.answer === 'true';
      }),

    withdraw: (id) =>
      base.writeBesideOthers(async (transaction) => {
        const { numDeletedRows } = await transaction
          .deleteFrom('pile_command')
          .where('id', '=', id)
          .where('done_ms', 'is', null)
          .executeTakeFirstOrThrow();
        return numDeletedRows > 0n;
      }),

    clear: (doneForMs) =>
      base.writeBesideOthers(async (transaction) => {
        await transaction
          .deleteFrom('pile_command')
          .where('done_ms', '<', sql<number>`${engine.nowMs} - ${sql.lit(doneForMs)}`)
          .execute();
      }),
  };
}
