import type { Clock } from '../../shared/clock.ts';
import type { UnreadableRow } from '../../shared/store/unreadable.ts';
import { type TroubleSeen, troubleSeen } from '../pile/trouble-seen.ts';
import type { MonitoredPile } from './monitored-pile.ts';

/** An evaluation that has not ended by then hangs [ms of the machine]. */
const hangsAfterMs = 60_000;

/**
 * What stands in the way of a pile, if anything.
 * @param underWaySinceMs Since when an evaluation of it has been under way [ms of the machine].
 * @param unreadable Rows of it that cannot be read.
 */
export function troubleOf(
  pile: MonitoredPile,
  underWaySinceMs: number | undefined,
  unreadable: readonly UnreadableRow[],
  clock: Clock,
): TroubleSeen | null {
  const hangsForMs = underWaySinceMs === undefined ? 0 : Date.now() - underWaySinceMs;
  const hangsSinceMs = hangsForMs > hangsAfterMs ? clock.nowMs() - hangsForMs * clock.speed : undefined;
  return troubleSeen({ ...pile, hangsSinceMs, unreadable });
}
