/**
 * Which worker watches which site, until when, by the database's own clock.
 *
 * A lease is lost when another worker takes it, not when its time is over: while nobody took it, its holder may prolong
 * it. Whoever writes under a lease locks its row for the length of the transaction, so that it cannot change hands
 * meanwhile.
 */
import { sql } from 'kysely';
import { LostLeaseError } from '../../errors.ts';
import type { Journal, Lease, LeaseRecord, LeaseTable } from '../journal.ts';
import type { JournalBase, JournalDb, JournalTransaction } from './journal-base.ts';
import type { JournalEngine } from './journal-engine.ts';
import type { LeaseRow } from './tables.ts';

export function journalLeases(base: JournalBase): Journal['leases'] {
  const { nowMs } = base.engine;
  const until = (forMs: number) => sql<number>`${nowMs} + ${sql.lit(Math.round(forMs))}`;

  return {
    beat: (worker, forMs, state) =>
      base.writeBesideOthers(async (transaction) => {
        const alive = { until_ms: until(forMs), state };
        await transaction
          .insertInto('worker')
          .values({ id: worker, ...alive })
          .onConflict((conflict) => conflict.column('id').doUpdateSet(alive))
          .execute();
        await transaction
          .updateTable('lease')
          .set({ until_ms: until(forMs) })
          .where('holder', '=', worker)
          .execute();
        return lookAt(base, transaction);
      }),

    look: () => base.read((db) => lookAt(base, db)),

    know: (sites) =>
      base.writeBesideOthers(async (transaction) => {
        if (sites.length === 0) return;
        await transaction
          .insertInto('lease')
          .values(sites.map((site) => ({ site, holder: null, fence: 0, until_ms: 0, heard: 0 })))
          .onConflict((conflict) => conflict.column('site').doNothing())
          .execute();
      }),

    take: (site, worker, forMs) =>
      base.writeBesideOthers(async (transaction) => {
        const taken = await transaction
          .updateTable('lease')
          .set((update) => ({ holder: worker, fence: update('fence', '+', 1), until_ms: until(forMs) }))
          .where('site', '=', site)
          .where((where) => where.or([where('holder', 'is', null), where('until_ms', '<=', nowMs)]))
          .returning('fence')
          .executeTakeFirst();
        return taken && { site, holder: worker, fence: Number(taken.fence) };
      }),

    release: (lease) =>
      base.writeBesideOthers(async (transaction) => {
        await held(transaction.updateTable('lease').set({ holder: null, until_ms: 0 }), lease).execute();
      }),

    setHeard: (lease, heard) =>
      base.writeBesideOthers(async (transaction) => {
        const { numUpdatedRows } = await held(
          transaction.updateTable('lease').set({ heard: heard ? 1 : 0 }),
          lease,
        ).executeTakeFirstOrThrow();
        return numUpdatedRows > 0n;
      }),

    leave: (worker) =>
      base.writeBesideOthers(async (transaction) => {
        await transaction
          .updateTable('lease')
          .set({ holder: null, until_ms: 0 })
          .where('holder', '=', worker)
          .execute();
        await transaction.deleteFrom('worker').where('id', '=', worker).execute();
      }),
  };
}

/** @throws {LostLeaseError} when the lease is another's; else it stays ours until the transaction ends. */
export async function mustHold(
  engine: JournalEngine,
  transaction: JournalTransaction,
  { site, holder, fence }: Lease,
): Promise<void> {
  const row = transaction
    .selectFrom('lease')
    .select('site')
    .where('site', '=', site)
    .where('holder', '=', holder)
    .where('fence', '=', fence);
  // SQLite has one writer as it is, and no words for it.
  const found = await (engine.kind === 'postgres' ? row.forShare() : row).executeTakeFirst();
  if (!found) throw new LostLeaseError(`Cannot write about site "${site}" as it is another worker's by now`);
}

function held<Query extends { where(column: 'site' | 'holder' | 'fence', is: '=', value: never): Query }>(
  query: Query,
  lease: Lease,
): Query {
  return query
    .where('site', '=', lease.site as never)
    .where('holder', '=', lease.holder as never)
    .where('fence', '=', lease.fence as never);
}

async function lookAt(base: JournalBase, db: JournalDb): Promise<LeaseTable> {
  const { nowMs } = await db.selectNoFrom(base.engine.nowMs.as('nowMs')).executeTakeFirstOrThrow();
  const leases = await db.selectFrom('lease').selectAll().orderBy('site').execute();
  const workers = await db
    .selectFrom('worker')
    .select(['id', 'state'])
    .where('until_ms', '>', nowMs)
    .orderBy('id')
    .execute();
  return { nowMs, leases: leases.map(leaseFromRow), workers };
}

function leaseFromRow(row: LeaseRow): LeaseRecord {
  return { site: row.site, holder: row.holder, fence: row.fence, untilMs: row.until_ms, heard: row.heard === 1 };
}
