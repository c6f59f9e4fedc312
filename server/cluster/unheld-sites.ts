import { defaultSession } from '../../ingest/client/site-sessions.ts';
import type { Journal } from '../../shared/store/journal.ts';

/**
 * Whether nobody watches a site just now; what is of no site goes with the default session. Web processes notify of those:
 * a warning must not wait for a reminder until a worker is there again.
 */
export async function unheldSites({ leases }: Pick<Journal, 'leases'>): Promise<(siteId: string | null) => boolean> {
  const table = await leases.table();
  const held = new Set(
    table.leases.filter(({ holder, untilMs }) => holder !== null && untilMs > table.nowMs).map(({ site }) => site),
  );
  return (siteId) => !held.has(siteId ?? defaultSession);
}
