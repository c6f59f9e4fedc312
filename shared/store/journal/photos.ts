/**
 * shared/store/journal/photos.ts: what is known of each photo; the pictures themselves are files beside the journal.
 */
import { ConflictError } from '../../errors.ts';
import type { Journal } from '../journal.ts';
import type { JournalBase } from './journal-base.ts';

export function journalPhotos(base: JournalBase): Journal['photos'] {
  return {
    get: (id) =>
      base.read(async (db) => {
        const row = await db.selectFrom('photo').selectAll().where('id', '=', id).executeTakeFirst();
        if (!row) return undefined;
        const { kept_at_ms: keptAtMs, ...photo } = row;
        return { ...photo, keptAtMs };
      }),

    add: ({ keptAtMs, ...photo }) =>
      base.write(async (transaction) => {
        const kept = await transaction
          .selectFrom('photo')
          .select('digest')
          .where('id', '=', photo.id)
          .executeTakeFirst();
        if (kept && kept.digest !== photo.digest) {
          throw new ConflictError(`Cannot keep a photo as its id must be its own: "${photo.id}" is another`, '/id');
        }
        if (kept) return 'known';
        await transaction
          .insertInto('photo')
          .values({ ...photo, kept_at_ms: keptAtMs })
          .execute();
        return 'kept';
      }),
  };
}
