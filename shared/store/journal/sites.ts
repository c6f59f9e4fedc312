/** The places where piles lie. */

import type { Site } from '../../contracts/sites.ts';
import { ConflictError } from '../../errors.ts';
import { message } from '../../messages/message.ts';
import type { Journal } from '../journal.ts';
import type { JournalBase } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';

export const sitePlan: RowPlan<'site', Site> = {
  table: 'site',
  toRecord: ({ time_zone: timeZone, ...site }) => ({ ...site, timeZone }),
  standIns: ({ id }) => ({ name: String(id), time_zone: null, latitude: null, longitude: null }),
};

export function journalSites(base: JournalBase): Journal['sites'] {
  return {
    list: () =>
      base.read(async (db) => {
        const rows = await db.selectFrom('site').selectAll().orderBy('id').execute();
        return base.rows.all(sitePlan, rows);
      }),

    add: ({ id, name, timeZone, latitude, longitude }) =>
      base.write(async (transaction) => {
        const taken = await transaction.selectFrom('site').select('id').where('id', '=', id).executeTakeFirst();
        if (taken) throw new ConflictError(message('problem.id-taken', { what: 'site', idText: id }), '/id');
        await transaction.insertInto('site').values({ id, name, time_zone: timeZone, latitude, longitude }).execute();
      }),
  };
}
