/** The broker's keys; a revoked one stays, so that its user name means nothing else. */
import { z } from 'zod';
import { ConflictError } from '../../errors.ts';
import { message } from '../../messages/message.ts';
import type { Journal, ProbeKeyRecord } from '../journal.ts';
import type { JournalBase } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';
import type { ProbeKeyRow } from './tables.ts';

export function journalProbeKeys(base: JournalBase): Journal['probeKeys'] {
  return {
    list: () =>
      base.read(async (db) => {
        const rows = await db.selectFrom('broker_key').selectAll().orderBy('made_at_ms').orderBy('id').execute();
        return base.rows.all(keyPlan, rows);
      }),

    add: (key) =>
      base.write(async (transaction) => {
        const taken = await transaction
          .selectFrom('broker_key')
          .select('id')
          .where('id', '=', key.id)
          .executeTakeFirst();
        if (taken) throw new ConflictError(message('problem.id-taken', { what: 'key', idText: key.id }), '/id');
        await transaction.insertInto('broker_key').values(rowFromKey(key)).execute();
      }),

    revoke: (id, atMs, by) =>
      base.write(async (transaction) => {
        const { numUpdatedRows } = await transaction
          .updateTable('broker_key')
          .set({ revoked_at_ms: atMs, revoked_by: by })
          .where('id', '=', id)
          .where('revoked_at_ms', 'is', null)
          .executeTakeFirstOrThrow();
        return numUpdatedRows > 0n;
      }),
  };
}

const filtersSchema = z.array(z.string());

/** A key that cannot be read opens nothing; where only what it hears is not known, it hears its own. */
export const keyPlan: RowPlan<'broker_key', ProbeKeyRecord> = {
  table: 'broker_key',
  toRecord: (row, json) => ({
    id: row.id,
    name: row.name,
    site: row.site,
    probe: row.probe,
    foreign: json('foreign_filters', row.foreign_filters, filtersSchema),
    hears: row.hears,
    secretSha256: row.secret_sha256,
    mosquittoHash: row.mosquitto_hash,
    madeAtMs: row.made_at_ms,
    madeBy: row.made_by,
    revokedAtMs: row.revoked_at_ms,
    revokedBy: row.revoked_by,
  }),
  standIns: () => ({ hears: 'own', made_by: null, revoked_by: null }),
};

function rowFromKey(key: ProbeKeyRecord): ProbeKeyRow {
  return {
    id: key.id,
    name: key.name,
    site: key.site,
    probe: key.probe,
    foreign_filters: JSON.stringify(key.foreign),
    hears: key.hears,
    secret_sha256: key.secretSha256,
    mosquitto_hash: key.mosquittoHash,
    made_at_ms: key.madeAtMs,
    made_by: key.madeBy,
    revoked_at_ms: key.revokedAtMs,
    revoked_by: key.revokedBy,
  };
}
