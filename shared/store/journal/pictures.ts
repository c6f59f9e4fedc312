/** The pictures of photos, by the digest of what was sent. */
import type { Journal } from '../journal.ts';
import type { JournalBase } from './journal-base.ts';

export function journalPictures(base: JournalBase): Journal['pictures'] {
  return {
    keep: (digest, { whole, small }) =>
      base.writeBesideOthers(async (transaction) => {
        await transaction
          .insertInto('picture')
          .values([
            { digest, size: 'whole', bytes: whole },
            { digest, size: 'small', bytes: small },
          ])
          .onConflict((conflict) => conflict.columns(['digest', 'size']).doNothing()) // the same file sent again
          .execute();
      }),

    read: (digest, size) =>
      base.read(async (db) => {
        const row = await db
          .selectFrom('picture')
          .select('bytes')
          .where('digest', '=', digest)
          .where('size', '=', size)
          .executeTakeFirst();
        return row?.bytes;
      }),
  };
}
