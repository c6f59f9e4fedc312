/**
 * After a start has read weeks of readings, the memory that took goes back to the system.
 *
 * V8 keeps the heap as large as a start made it while little is allocated afterwards, and a small machine has better
 * use for it. `v8.setFlagsFromString` and a `gc` from a new context are how Node's own documentation and tests reach
 * it.
 */
import { getHeapStatistics, setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

/**
 * Stops everything for some ten milliseconds, with thousands of piles for longer: for the end of a start, not for work
 * under way. Without moving together what is left, a few objects on each page would keep nearly all pages.
 */
export function giveBackMemory(): void {
  setFlagsFromString('--expose-gc');
  const collect: unknown = runInNewContext('gc');
  setFlagsFromString('--no-expose-gc');
  if (typeof collect !== 'function') return;
  setFlagsFromString('--compact-on-every-full-gc');
  collect();
  setFlagsFromString('--no-compact-on-every-full-gc');
}

/** So much is collected within a tenth of a second on a small machine [bytes]; a larger server is left alone. */
const soonDone = 128e6;

/** The same under way, after work that comes seldom, where it holds up nobody. */
export function giveBackWhereSmall(): void {
  if (getHeapStatistics().total_heap_size < soonDone) giveBackMemory();
}
