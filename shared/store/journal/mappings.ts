/** How messages on foreign topics become readings, in the order added. */

import type { MappingInput } from '../../contracts/ingest.ts';
import { ConflictError } from '../../errors.ts';
import { message } from '../../messages/message.ts';
import type { Journal } from '../journal.ts';
import type { JournalBase } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';

type Mapping = MappingInput & { id: string };

export function journalMappings(base: JournalBase): Journal['mappings'] {
  return {
    list: () =>
      base.read(async (db) => {
        const rows = await db.selectFrom('mapping').selectAll().orderBy('number').execute();
        return base.rows.all(mappingPlan, rows);
      }),

    add: ({ timePointer, ...mapping }) =>
      base.write(async (transaction) => {
        const all = await transaction.selectFrom('mapping').select(['id', 'number']).execute();
        if (all.some(({ id }) => id === mapping.id)) {
          throw new ConflictError(message('problem.id-taken', { what: 'mapping', idText: mapping.id }), '/id');
        }
        const number = Math.max(0, ...all.map((other) => other.number)) + 1;
        await transaction
          .insertInto('mapping')
          .values({ ...mapping, number, time_pointer: timePointer ?? null })
          .execute();
      }),

    remove: (id) =>
      base.write(async (transaction) => {
        const { numDeletedRows } = await transaction
          .deleteFrom('mapping')
          .where('id', '=', id)
          .executeTakeFirstOrThrow();
        return numDeletedRows > 0n;
      }),
  };
}

export const mappingPlan: RowPlan<'mapping', Mapping> = {
  table: 'mapping',
  toRecord: ({ number: _, time_pointer: timePointer, ...mapping }) =>
    timePointer === null ? mapping : { ...mapping, timePointer },
};
