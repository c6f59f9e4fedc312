/** What is in use, as against what only waits to be collected: a test of memory must not hang on when the collector last ran. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

export function collectGarbage(): void {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  setFlagsFromString('--no-expose-gc');
  collect();
}

/** Memory in use after a collection [bytes]. */
export function memoryInUse(): NodeJS.MemoryUsage {
  collectGarbage();
  return process.memoryUsage();
}
