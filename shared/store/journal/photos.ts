/** What is known of each photo; the pictures themselves are files beside the journal. */
import { z } from 'zod';
import { ConflictError } from '../../errors.ts';
import { jsonOf } from '../../json-of.ts';
import { message } from '../../messages/message.ts';
import type { Journal, PhotoRecord } from '../journal.ts';
import type { JournalBase } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';

export const photoPlan: RowPlan<'photo', PhotoRecord> = {
  table: 'photo',
  toRecord: ({ kept_at_ms: keptAtMs, ...photo }) => ({ ...photo, keptAtMs }),
};

const idsSchema = z.array(z.string());

/** undefined when one of the lists cannot be read. */
function namedIn(lists: readonly string[]): ReadonlySet<string> | undefined {
  const named = new Set<string>();
  for (const list of lists) {
    const read = idsSchema.safeParse(jsonOf(list));
    if (!read.success) return undefined;
    for (const id of read.data) named.add(id);
  }
  return named;
}

export function journalPhotos(base: JournalBase): Journal['photos'] {
  return {
    get: (id) =>
      base.read(async (db) => {
        const row = await db.selectFrom('photo').selectAll().where('id', '=', id).executeTakeFirst();
        return base.rows.one(photoPlan, row);
      }),

    add: ({ keptAtMs, ...photo }) =>
      base.write(async (transaction) => {
        const kept = await transaction
          .selectFrom('photo')
          .select('digest')
          .where('id', '=', photo.id)
          .executeTakeFirst();
        if (kept && kept.digest !== photo.digest) {
          throw new ConflictError(message('problem.photo.id-taken', { idText: photo.id }), '/id');
        }
        if (kept) return 'known';
        await transaction
          .insertInto('photo')
          .values({ ...photo, kept_at_ms: keptAtMs })
          .execute();
        return 'kept';
      }),

    forgetUnnamed: (keptBeforeMs, limit) =>
      base.write(async (transaction) => {
        const old = await transaction
          .selectFrom('photo')
          .select(['id', 'digest'])
          .where('kept_at_ms', '<', keptBeforeMs)
          .orderBy('kept_at_ms')
          .execute();
        if (old.length === 0) return [];
        const naming = await transaction
          .selectFrom('entry')
          .select('photo_ids')
          .where('photo_ids', '!=', '[]')
          .execute();
        const named = namedIn(naming.map(({ photo_ids }) => photo_ids));
        if (named === undefined) return []; // which photos a damaged entry names is not known: all stay
        const unnamed = old.filter(({ id }) => !named.has(id)).slice(0, limit);
        if (unnamed.length === 0) return [];
        const ids = unnamed.map(({ id }) => id);
        await transaction.deleteFrom('photo').where('id', 'in', ids).execute();
        const digests = [...new Set(unnamed.map(({ digest }) => digest))];
        const shared = await transaction.selectFrom('photo').select('digest').where('digest', 'in', digests).execute();
        const gone = digests.filter((digest) => !shared.some((other) => other.digest === digest));
        if (gone.length > 0) await transaction.deleteFrom('picture').where('digest', 'in', gone).execute();
        return gone;
      }),
  };
}
