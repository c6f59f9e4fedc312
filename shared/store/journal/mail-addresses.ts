/**
 * E-mail addresses of people, and whether each is theirs.
 */
import type { MailAddress, NotificationsStore } from '../notifications-store.ts';
import type { JournalBase } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';

/** One that cannot be read is as if nobody had confirmed it. */
export const mailAddressPlan: RowPlan<'mail_address', MailAddress> = {
  table: 'mail_address',
  toRecord: (row) => ({
    personId: row.person_id,
    address: row.address,
    standing: row.standing,
    sinceMs: row.since_ms,
    askedAtMs: row.asked_at_ms,
    tries: row.tries,
  }),
};

export function journalMailAddresses(base: JournalBase): NotificationsStore['mailAddresses'] {
  const key = (personId: string, address: string) => ({ person_id: personId, address: address.toLowerCase() });
  return {
    list: (personId) =>
      base.read(async (db) => {
        let rows = db.selectFrom('mail_address').selectAll();
        if (personId !== undefined) rows = rows.where('person_id', '=', personId);
        return base.rows.all(mailAddressPlan, await rows.orderBy('person_id').orderBy('address').execute());
      }),

    ask: (personId, address, askedAtMs) =>
      base.write(async (transaction) => {
        const asked = { asked_at_ms: askedAtMs, tries: 0 };
        await transaction
          .insertInto('mail_address')
          .values({ ...key(personId, address), standing: 'waiting', since_ms: askedAtMs, ...asked })
          .onConflict((conflict) => conflict.columns(['person_id', 'address']).doUpdateSet(asked))
          .execute();
      }),

    tried: (personId, address) =>
      base.write(async (transaction) => {
        const { person_id, address: lower } = key(personId, address);
        const row = await transaction
          .updateTable('mail_address')
          .set((one) => ({ tries: one('tries', '+', 1) }))
          .where('person_id', '=', person_id)
          .where('address', '=', lower)
          .returningAll()
          .executeTakeFirst();
        return base.rows.ifReadable(mailAddressPlan, row);
      }),

    confirm: (personId, address, atMs) =>
      base.write(async (transaction) => {
        await transaction.deleteFrom('mail_address').where('person_id', '=', personId).execute();
        await transaction
          .insertInto('mail_address')
          .values({
            ...key(personId, address),
            standing: 'confirmed',
            since_ms: atMs,
            asked_at_ms: null,
            tries: 0,
          })
          .execute();
      }),

    forget: (personId) =>
      base.write(async (transaction) => {
        await transaction.deleteFrom('mail_address').where('person_id', '=', personId).execute();
      }),
  };
}
