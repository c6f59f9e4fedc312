/**
 * server/give-back-memory.ts: after a start has read weeks of readings, the memory that took goes back to the system.
 *
 * V8 keeps the heap as large as a start made it while little is allocated afterwards, and a small machine has better use
 * for it. `v8.setFlagsFromString` and a `gc` from a new context are how Node's own documentation and tests reach it.
 */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

/** Stops everything for some ten milliseconds: for the end of a start, not for work under way. */
export function giveBackMemory(): void {
  setFlagsFromString('--expose-gc');
  const collect: unknown = runInNewContext('gc');
  setFlagsFromString('--no-expose-gc');
  if (typeof collect === 'function') collect();
}
