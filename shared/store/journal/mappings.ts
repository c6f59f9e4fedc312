/** How messages on foreign topics become readings, in the order added. */

import { type Mapping, mappingReadsSchema } from '../../contracts/mappings.ts';
import { ConflictError } from '../../errors.ts';
import { message } from '../../messages/message.ts';
import type { Journal } from '../journal.ts';
import type { JournalBase } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';

export function journalMappings(base: JournalBase): Journal['mappings'] {
  return {
    list: () =>
      base.read(async (db) => {
        const rows = await db.selectFrom('mapping').selectAll().orderBy('number').execute();
        return base.rows.all(mappingPlan, rows);
      }),

    add: (mapping) =>
      base.write(async (transaction) => {
        const all = await transaction.selectFrom('mapping').select(['id', 'number']).execute();
        if (all.some(({ id }) => id === mapping.id)) {
          throw new ConflictError(message('problem.id-taken', { what: 'mapping', idText: mapping.id }), '/id');
        }
        const number = Math.max(0, ...all.map((other) => other.number)) + 1;
        await transaction
          .insertInto('mapping')
          .values({ ...columnsOf(mapping), id: mapping.id, number })
          .execute();
      }),

    replace: (mapping) =>
      base.write(async (transaction) => {
        const { numUpdatedRows } = await transaction
          .updateTable('mapping')
          .set(columnsOf(mapping))
          .where('id', '=', mapping.id)
          .executeTakeFirstOrThrow();
        return numUpdatedRows > 0n;
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

const columnsOf = ({ id: _, filter, site, probe, ...reads }: Mapping) => ({
  filter,
  site,
  probe,
  reads: JSON.stringify(reads),
});

export const mappingPlan: RowPlan<'mapping', Mapping> = {
  table: 'mapping',
  toRecord: ({ id, filter, site, probe, reads }, json) => ({
    id,
    filter,
    site,
    probe,
    ...json('reads', reads, mappingReadsSchema),
  }),
};
