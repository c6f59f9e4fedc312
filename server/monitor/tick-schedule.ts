/** When a pile is evaluated again, its checkpoint kept, and its expected band worked out anew. */
import { msPerHour } from '../../shared/units.ts';
import type { MonitoredPile } from './monitored-pile.ts';

/** A pile without news is evaluated all the same, so that silence is noticed [machine time]. */
const quietMs = 2_000;
/** ... and later when there are so many piles that evaluating quiet ones would hold up those with news. */
const quietMsPerPile = 2;
/**
 * A pile's checkpoint is kept although no alarm changed [machine time]. Each is some 28 KB on the disk, and cards wear out;
 * what came since is read back in milliseconds.
 */
const checkpointMs = 600_000;
/** ... and sooner while an alarm waits to be raised: after a crash its wait would begin anew. */
const waitingCheckpointMs = 60_000;
/** ... and later when there are so many piles that the journal would do little else: reading back is cheap. */
const checkpointMsPerPile = 50;
/** The expected band is worked out anew from the air measured meanwhile [server time]. */
const bandMs = 3 * msPerHour;
/** The same where the air departs from what the band took it to be: an hour shows it, and is then in the band. */
const bandDepartedMs = msPerHour;

type Due = Pick<MonitoredPile, 'begun' | 'opening' | 'evaluating' | 'keeping' | 'news' | 'evaluatedAtMs'>;

export function isDue(pile: Due, pileCount: number, machineNowMs: number): boolean {
  if (!pile.begun) return pile.opening.mayTry(machineNowMs);
  if (!pile.evaluating.mayTry(machineNowMs)) return false;
  const owes = pile.keeping.failures > 0 && pile.keeping.mayTry(machineNowMs);
  const everyMs = Math.max(quietMs, pileCount * quietMsPerPile);
  return pile.news || owes || machineNowMs - pile.evaluatedAtMs >= everyMs;
}

interface CheckpointAsked extends Pick<MonitoredPile, 'checkpointDue' | 'keptAtMs'> {
  readonly watch: { readonly isAlarmWaiting: boolean };
}

export function checkpointIsDue(pile: CheckpointAsked, pileCount: number, machineNowMs: number): boolean {
  const ageMs = machineNowMs - pile.keptAtMs;
  const isOver = (everyMs: number) => ageMs >= Math.max(everyMs, pileCount * checkpointMsPerPile);
  return pile.checkpointDue || isOver(checkpointMs) || (isOver(waitingCheckpointMs) && pile.watch.isAlarmWaiting);
}

interface BandAsked {
  readonly bandAskedMs: number;
  readonly watch: { readonly weatherDeparts: boolean };
}

export function bandIsDue({ bandAskedMs, watch }: BandAsked, nowMs: number): boolean {
  const askedForMs = nowMs - bandAskedMs;
  return askedForMs >= bandMs || (askedForMs >= bandDepartedMs && watch.weatherDeparts);
}
