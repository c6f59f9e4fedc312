/**
 * Notices that somebody, or a time server, set the machine's clock while we run. It never takes a slow turn of the
 * event loop or a clock that is steered gently for a jump.
 */
import type { Clock } from '../../shared/clock.ts';

/** Time servers steer what is smaller than this instead of setting it, or it does no harm here. */
const toleratedMs = 60_000;
/** Of the machine's own time: a clock that runs fast shows its smallest steps large. */
const toleratedOfMachineMs = 1_000;

/** A clock without a time that nobody sets never jumps, as far as we can tell. */
export function jumpDetector(clock: Clock): () => number {
  const mostMs = Math.max(toleratedMs, toleratedOfMachineMs * clock.speed);
  let lastMs = clock.nowMs();
  let lastSteadyMs = clock.steadyMs?.() ?? 0;
  return () => {
    if (clock.steadyMs === undefined) return 0;
    const nowMs = clock.nowMs();
    const steadyMs = clock.steadyMs();
    const jumpMs = nowMs - lastMs - (steadyMs - lastSteadyMs);
    lastMs = nowMs;
    lastSteadyMs = steadyMs;
    return Math.abs(jumpMs) > mostMs ? jumpMs : 0;
  };
}
