/**
 * Which worker watches which site, until when, by the database's own clock.
 *
 * A lease is lost when another worker takes it, not when its time is over: while nobody took it, its holder may prolong
 * it. Whoever writes under a lease locks its row for the length of the transaction, so that it cannot change hands
 * meanwhile.
 */
import { sql } from 'kysely';
import { z } from 'zod';
import { LostLeaseError } from '../../errors.ts';
import type { Journal, Lease, LeaseRecord, LeaseTable, WorkerRecord } from '../journal.ts';
import type { JournalBase, JournalDb, JournalTransaction } from './journal-base.ts';
import type { JournalEngine } from './journal-engine.ts';
import type { RowPlan } from './read-rows.ts';

export const leasePlan: RowPlan<'lease', LeaseRecord> = {
  table: 'lease',
  toRecord: (row) => ({
    site: row.site,
    holder: row.holder,
    fence: row.fence,
    untilMs: row.until_ms,
    heard: row.heard === 1,
  }),
  standIns: () => ({ heard: 0 }), // its holder then marks the site once more
};

const workerState = z.object({ sites: z.number().int().min(0).optional() });

/** One that cannot be read is not alive: if it is, it says so anew within seconds. */
export const workerPlan: RowPlan<'worker', WorkerRecord & { untilMs: number }> = {
  table: 'worker',
  toRecord: (row, json) => ({
    id: row.id,
    untilMs: row.until_ms,
    siteCount: json('state', row.state, workerState, {}).sites ?? null,
  }),
};

export function journalLeases(base: JournalBase): Journal['leases'] {
  return {
    beat: (worker, forMs, { sites }) =>
      base.writeBesideOthers((transaction) => beat(base, transaction, worker, forMs, sites)),
    table: () => base.read((db) => readLeases(base, db)),
    know: (sites) => base.writeBesideOthers((transaction) => know(base, transaction, sites)),
    take: (site, worker, forMs) =>
      base.writeBesideOthers((transaction) => take(base.engine, transaction, site, worker, forMs)),
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

const untilIn = ({ nowMs }: JournalEngine, forMs: number) => sql<number>`${nowMs} + ${sql.lit(Math.round(forMs))}`;

/** The worker is alive, and its leases go on. @returns Who has which site now. */
async function beat(
  base: JournalBase,
  transaction: JournalTransaction,
  worker: string,
  forMs: number,
  sites: number | undefined,
): Promise<LeaseTable> {
  const until = untilIn(base.engine, forMs);
  const alive = { until_ms: until, state: JSON.stringify({ sites }) };
  await transaction
    .insertInto('worker')
    .values({ id: worker, ...alive })
    .onConflict((conflict) => conflict.column('id').doUpdateSet(alive))
    .execute();
  await transaction.updateTable('lease').set({ until_ms: until }).where('holder', '=', worker).execute();
  await mend(base, transaction);
  return readLeases(base, transaction);
}

/** Sites that nobody holds yet, for a worker to take. */
async function know(base: JournalBase, transaction: JournalTransaction, sites: readonly string[]): Promise<void> {
  if (sites.length === 0) return;
  await transaction
    .insertInto('lease')
    .values(sites.map((site) => ({ site, holder: null, fence: 0, until_ms: 0, heard: 0 })))
    .onConflict((conflict) => conflict.column('site').doNothing())
    .execute();
  await mend(base, transaction);
}

/** @returns undefined while another worker's lease of it goes on. */
async function take(
  engine: JournalEngine,
  transaction: JournalTransaction,
  site: string,
  worker: string,
  forMs: number,
): Promise<Lease | undefined> {
  const taken = await transaction
    .updateTable('lease')
    .set((update) => ({ holder: worker, fence: update('fence', '+', 1), until_ms: untilIn(engine, forMs) }))
    .where('site', '=', site)
    .where((where) => where.or([where('holder', 'is', null), where('until_ms', '<=', engine.nowMs)]))
    .returning('fence')
    .executeTakeFirst();
  return taken && { site, holder: worker, fence: Number(taken.fence) };
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

async function readLeases(base: JournalBase, db: JournalDb): Promise<LeaseTable> {
  const { nowMs } = await db.selectNoFrom(base.engine.nowMs.as('nowMs')).executeTakeFirstOrThrow();
  const leases = base.rows.all(leasePlan, await db.selectFrom('lease').selectAll().orderBy('site').execute());
  const workers = base.rows.all(workerPlan, await db.selectFrom('worker').selectAll().orderBy('id').execute());
  const alive = workers.filter(({ untilMs }) => untilMs > nowMs);
  return { nowMs, leases, workers: alive.map(({ id, siteCount }) => ({ id, siteCount })) };
}

/**
 * Sites whose lease cannot be read are nobody's from now on, or nobody could ever take them. Whoever held one lost it: its
 * number is larger than any before, as no site changes hands every millisecond.
 */
async function mend(base: JournalBase, transaction: JournalTransaction): Promise<void> {
  const leases = await transaction.selectFrom('lease').selectAll().execute();
  for (const row of leases.filter((one) => !base.rows.ifReadable(leasePlan, one))) {
    await transaction
      .updateTable('lease')
      .set({ holder: null, fence: base.engine.nowMs, until_ms: 0, heard: 0 })
      .where('site', '=', row.site)
      .execute();
  }
  const workers = await transaction.selectFrom('worker').selectAll().execute();
  for (const row of workers.filter((one) => !base.rows.ifReadable(workerPlan, one))) {
    await transaction.deleteFrom('worker').where('id', '=', row.id).execute();
  }
}
