/**
 * One process that does everything on a journal at a server, and no other beside it.
 *
 * In a data folder a lock on the file sees to that; at a server anybody can connect. So the server holds a lease on the
 * whole, and what it writes about piles is refused once another has taken it.
 */
import { randomBytes } from 'node:crypto';
import { hostname } from 'node:os';
import type { FastifyBaseLogger } from 'fastify';
import { StoreError } from '../../shared/errors.ts';
import type { Journal, Lease } from '../../shared/store/journal.ts';

/** Stands for all sites together; no site can be called that. */
export const whole = '*';
const leaseMs = 8_000;
const beatMs = 2_000;
/** A process that was killed holds on for its lease: a restart waits for that. */
const patienceMs = 10_000;

export interface SingleProcess {
  readonly lease: Lease;
  close(): Promise<void>;
}

/** @throws {StoreError} one line, when other processes are at work on this journal. */
export async function holdWhole(journal: Pick<Journal, 'leases'>, log: FastifyBaseLogger): Promise<SingleProcess> {
  const { leases } = journal;
  const id = `${hostname()}-${process.pid}-${randomBytes(3).toString('hex')}`;
  await leases.know([whole]);
  const lease = await takeWithPatience(leases, id);
  let away = false;
  let closed = false;
  let timer: NodeJS.Timeout | undefined;
  const beat = async () => {
    await leases.beat(id, leaseMs, {}).then(
      () => {
        away = false;
      },
      (error) => {
        if (!away) log.error({ err: error }, 'the lease on the journal cannot be confirmed; it is tried again');
        away = true;
      },
    );
    if (!closed) timer = setTimeout(() => void beat(), beatMs);
  };
  await beat();
  return {
    lease,
    async close() {
      closed = true;
      clearTimeout(timer);
      await leases.leave(id).catch(() => undefined);
    },
  };
}

async function takeWithPatience(leases: Journal['leases'], id: string): Promise<Lease> {
  const endMs = Date.now() + patienceMs;
  for (;;) {
    const { workers } = await leases.table();
    const lease = workers.length === 0 ? await leases.take(whole, id, leaseMs) : undefined;
    if (lease) return lease;
    if (Date.now() > endMs) {
      throw new StoreError(
        'Cannot run everything in one process as no other may be at work on this journal: stop the others, or start all of them with --only ingest or --only web',
      );
    }
    await new Promise((resolve) => setTimeout(resolve, 500));
  }
}

/** @throws {StoreError} one line, when a whole server is at work on this journal. */
export async function refuseBesideWhole(journal: Pick<Journal, 'leases'>): Promise<void> {
  const endMs = Date.now() + patienceMs;
  for (;;) {
    const { leases, nowMs } = await journal.leases.table();
    if (!leases.some(({ site, untilMs }) => site === whole && untilMs > nowMs)) return;
    if (Date.now() > endMs) {
      throw new StoreError(
        'Cannot start with --only as a server that does everything is at work on this journal: stop it first',
      );
    }
    await new Promise((resolve) => setTimeout(resolve, 500));
  }
}
