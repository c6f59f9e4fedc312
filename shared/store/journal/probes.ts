/** What is known of a probe beside its readings. A probe enters with its first word. */
import type { Journal, ProbeRecord } from '../journal.ts';
import type { JournalBase } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';
import { setAside } from './set-aside.ts';

export function journalProbes(base: JournalBase): Journal['probes'] {
  return {
    list: () =>
      base.read(async (db) => {
        const rows = await db.selectFrom('probe').selectAll().orderBy('site').orderBy('probe').execute();
        return base.rows.all(probePlan, rows);
      }),

    setOnline: (site, probe, online, atMs) =>
      base.write(async (transaction) => {
        await setAside(base, transaction, 'probe', { site, probe });
        const now = { online: online ? 1 : 0, online_at_ms: atMs };
        await transaction
          .insertInto('probe')
          .values({ site, probe, ...now, temperature_offset_c: 0 })
          .onConflict((conflict) =>
            conflict
              .columns(['site', 'probe'])
              .doUpdateSet(now)
              // A word that comes late does not unsay a newer one.
              .where((where) =>
                where.or([where('probe.online_at_ms', 'is', null), where('probe.online_at_ms', '<=', atMs)]),
              ),
          )
          .execute();
      }),

    setTemperatureOffset: (site, probe, offsetC) =>
      base.write(async (transaction) => {
        await setAside(base, transaction, 'probe', { site, probe });
        await transaction
          .insertInto('probe')
          .values({ site, probe, online: null, online_at_ms: null, temperature_offset_c: offsetC })
          .onConflict((conflict) => conflict.columns(['site', 'probe']).doUpdateSet({ temperature_offset_c: offsetC }))
          .execute();
      }),

    remove: (probes) =>
      base.write(async (transaction) => {
        for (const { site, probe } of probes)
          await transaction.deleteFrom('probe').where('site', '=', site).where('probe', '=', probe).execute();
      }),
  };
}

export const probePlan: RowPlan<'probe', ProbeRecord> = {
  table: 'probe',
  toRecord: (row) => ({
    site: row.site,
    probe: row.probe,
    online: row.online === null ? null : row.online === 1,
    onlineAtMs: row.online_at_ms,
    temperatureOffsetC: row.temperature_offset_c,
  }),
  standIns: () => ({ online: null, online_at_ms: null, temperature_offset_c: 0 }),
};
