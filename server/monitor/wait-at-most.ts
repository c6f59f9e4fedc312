import { setTimeout as pause } from 'node:timers/promises';

/** Waits for the work, or goes on without it after `patienceMs` of the machine; it is not ended. @throws what the work throws by then. */
export async function waitAtMost(work: Promise<unknown>, patienceMs: number): Promise<void> {
  const patience = new AbortController();
  await Promise.race([work, pause(patienceMs, undefined, { signal: patience.signal }).catch(() => undefined)]);
  patience.abort();
}
