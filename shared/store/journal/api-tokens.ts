/** Secrets of programs, each with a name, a scope and the person who answers for it. */
import type { PeopleJournal, TokenRecord } from '../people-journal.ts';
import { endTokens } from './held.ts';
import type { JournalBase } from './journal-base.ts';
import { presentPerson } from './person-row.ts';
import type { RowPlan } from './read-rows.ts';

/** Nothing stands in for a damaged column: by such a token nobody gets in. */
export const tokenPlan: RowPlan<'api_token', TokenRecord> = {
  table: 'api_token',
  toRecord: (row) => ({
    id: row.id,
    digest: row.digest,
    personId: row.person_id,
    name: row.name,
    scope: row.scope,
    madeAtMs: row.made_at_ms,
    usedAtMs: row.used_at_ms,
    endsAtMs: row.ends_at_ms,
  }),
};

export function journalTokens(base: JournalBase): PeopleJournal['tokens'] {
  return {
    add: (token) =>
      base.write(async (transaction) => {
        await transaction
          .insertInto('api_token')
          .values({
            digest: token.digest,
            id: token.id,
            person_id: token.personId,
            name: token.name,
            scope: token.scope,
            made_at_ms: token.madeAtMs,
            used_at_ms: token.usedAtMs,
            ends_at_ms: token.endsAtMs,
          })
          .execute();
      }),

    find: (digest) =>
      base.read(async (db) => {
        const row = await db.selectFrom('api_token').selectAll().where('digest', '=', digest).executeTakeFirst();
        const token = base.rows.ifReadable(tokenPlan, row);
        if (!token) return undefined;
        const person = await presentPerson(base, db, token.personId);
        return person && { token, person };
      }),

    list: (personId) =>
      base.read(async (db) => {
        let rows = db.selectFrom('api_token').selectAll();
        if (personId !== undefined) rows = rows.where('person_id', '=', personId);
        return base.rows.all(tokenPlan, await rows.orderBy('made_at_ms', 'desc').orderBy('id').execute());
      }),

    used: (id, usedAtMs) =>
      base.write(async (transaction) => {
        await transaction.updateTable('api_token').set({ used_at_ms: usedAtMs }).where('id', '=', id).execute();
      }),

    remove: (id, personId) =>
      base.write(async (transaction) => {
        let removing = transaction.deleteFrom('api_token').where('id', '=', id);
        if (personId !== undefined) removing = removing.where('person_id', '=', personId);
        const isGone = (await removing.executeTakeFirstOrThrow()).numDeletedRows > 0n;
        if (isGone) await transaction.deleteFrom('push_device').where('made_with', '=', id).execute();
        return isGone;
      }),

    removeAll: (personId) => base.write((transaction) => endTokens(transaction, personId)),
  };
}
