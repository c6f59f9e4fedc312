/** The air foretold at each site. */
import { z } from 'zod';
import { epochMsSchema } from '../../epoch.ts';
import { ConflictError } from '../../errors.ts';
import { message } from '../../messages/message.ts';
import { msPerDay } from '../../units.ts';
import type { AirAheadRecord, Journal } from '../journal.ts';
import type { JournalBase } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';

/** Hours that have gone by are kept so long: a batch without a probe in its air has them to go by. */
const goneByMs = 14 * msPerDay;

/** Time, temperature [°C], humidity [%RH]. */
const pointsSchema = z.array(z.tuple([epochMsSchema, z.number().min(-100).max(100), z.number().nullable()]));

export const airAheadPlan: RowPlan<'air_ahead', AirAheadRecord> = {
  table: 'air_ahead',
  toRecord: (row, json) => ({
    siteId: row.site_id,
    source: row.source,
    issuedMs: row.issued_at_ms,
    receivedMs: row.received_at_ms,
    points: json('points', row.points, pointsSchema).map(([atMs, tempC, humidityPct]) => ({
      atMs,
      tempC,
      humidityPct,
    })),
  }),
};

export function journalAirAhead(base: JournalBase): Journal['airAhead'] {
  return {
    get: (siteId) =>
      base.read(async (db) => {
        const row = await db.selectFrom('air_ahead').selectAll().where('site_id', '=', siteId).executeTakeFirst();
        return base.rows.ifReadable(airAheadPlan, row);
      }),

    keep: (next) =>
      base.write(async (transaction) => {
        const { siteId } = next;
        const site = await transaction.selectFrom('site').select('id').where('id', '=', siteId).executeTakeFirst();
        if (!site) throw new ConflictError(message('problem.no-site-for-air', { idText: siteId }), '');
        const row = await transaction
          .selectFrom('air_ahead')
          .selectAll()
          .where('site_id', '=', siteId)
          .executeTakeFirst();
        const before = base.rows.ifReadable(airAheadPlan, row);
        if (before && before.issuedMs >= next.issuedMs) return 'known';
        const values = {
          source: next.source,
          issued_at_ms: next.issuedMs,
          received_at_ms: next.receivedMs,
          points: JSON.stringify(
            joined(before, next).map(({ atMs, tempC, humidityPct }) => [atMs, tempC, humidityPct]),
          ),
        };
        await transaction
          .insertInto('air_ahead')
          .values({ site_id: siteId, ...values })
          .onConflict((conflict) => conflict.column('site_id').doUpdateSet(values))
          .execute();
        return 'kept';
      }),
  };
}

/** The new issue, with what earlier ones said of the hours before it. */
function joined(before: AirAheadRecord | undefined, next: AirAheadRecord): AirAheadRecord['points'] {
  const firstMs = next.points[0]?.atMs ?? next.issuedMs;
  const goneBy = before?.points.filter(({ atMs }) => atMs < firstMs && atMs >= next.issuedMs - goneByMs) ?? [];
  return [...goneBy, ...next.points];
}
