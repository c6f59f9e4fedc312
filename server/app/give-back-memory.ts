/**
 * After a start has read weeks of readings, the memory that took goes back to the system.
 *
 * V8 keeps the heap as large as a start made it while little is allocated afterwards, and a small machine has better
 * use for it. `v8.setFlagsFromString` and a `gc` from a new context are how Node's own documentation and tests reach
 * it.
 */
import { performance } from 'node:perf_hooks';
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
/**
 * Of a core, above which somebody would wait. By processor time: on a machine that is busy with something else a thread seems at work
 * by the clock while it only waits its turn, and what the curves took, 15 to 35 MB of 160, would stay.
 */
const busyShare = 0.3;
const lookEveryMs = 10_000;

interface ProcessUse {
  /** The share of a core that was used since it was last asked. */
  readonly busySince: () => number;
  readonly giveBack: () => void;
}

/** The same under way, after work that comes seldom, as soon as it holds up nobody: under a flood a tenth of a second leaves thousands waiting. */
export function giveBackOnceQuiet({ busySince, giveBack }: ProcessUse = thisProcess()): void {
  clearInterval(looking);
  busySince();
  looking = setInterval(() => {
    if (busySince() > busyShare) return;
    clearInterval(looking);
    giveBack();
  }, lookEveryMs).unref();
}

let looking: NodeJS.Timeout | undefined;

function thisProcess(): ProcessUse {
  let before = process.cpuUsage();
  let beforeMs = performance.now();
  return {
    busySince() {
      const { user, system } = process.cpuUsage(before);
      const share = (user + system) / 1_000 / (performance.now() - beforeMs);
      before = process.cpuUsage();
      beforeMs = performance.now();
      return share;
    },
    giveBack() {
      if (getHeapStatistics().total_heap_size < soonDone) giveBackMemory();
    },
  };
}
