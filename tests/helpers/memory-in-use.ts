/** What is in use, as against what only waits to be collected: a test of memory must not hang on when the collector last ran. */
import { giveBackMemory } from '../../server/app/give-back-memory.ts';

/** Memory in use after a collection [bytes]. */
export function memoryInUse(): NodeJS.MemoryUsage {
  giveBackMemory();
  return process.memoryUsage();
}
