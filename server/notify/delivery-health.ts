/** How the delivery of warnings stands, in one line. */
import type { Clock } from '../../shared/clock.ts';
import type { Journal } from '../../shared/store/journal.ts';
import { msPerDay } from '../../shared/units.ts';
import type { Recipients } from './people.ts';

export interface DeliveryHealth {
  readonly state: 'ok' | 'degraded' | 'down' | 'off';
  readonly detail: string;
}

interface Asked {
  readonly journal: Pick<Journal, 'notifications'>;
  readonly people: Recipients;
  readonly clock: Pick<Clock, 'nowMs'>;
  /** Why the outbox cannot be worked through, if it cannot. */
  readonly failing: string;
}

/** So long it is said that a warning could not be read. */
const setAsideSaidMs = 7 * msPerDay;

export async function deliveryHealth({ journal, people, clock, failing }: Asked): Promise<DeliveryHealth> {
  if (failing !== '') return { state: 'down', detail: `Nothing can be told: ${failing}` };
  const counts = await journal.notifications.messages.counts();
  const sum = (state: string, of: 'count' | 'unseen' = 'count') =>
    counts.filter((row) => row.state === state).reduce((total, row) => total + row[of], 0);
  const reachable = (await people.listeners()).filter(({ channels }) => channels.length > 0);
  // Before what was lost: that the next warning reaches nobody either matters more.
  if (reachable.length === 0) return { state: 'off', detail: 'no channel is set up, so warnings reach nobody' };
  const lost = sum('given-up', 'unseen');
  if (lost > 0) {
    return {
      state: 'degraded',
      detail: `${lost === 1 ? 'One message' : `${lost} messages`} could not be delivered and nobody has looked at ${lost === 1 ? 'it' : 'them'} yet: see “My notifications”`,
    };
  }
  const setAside = await journal.notifications.notices.setAside(clock.nowMs() - setAsideSaidMs);
  if (setAside > 0) {
    return {
      state: 'degraded',
      detail: `${setAside === 1 ? 'One warning' : `${setAside} warnings`} of the last days could not be read, so nobody was notified of ${setAside === 1 ? 'it' : 'them'}: the log says which`,
    };
  }
  const waiting = sum('waiting') + sum('held');
  const who = reachable.length === 1 ? '1 person' : `${reachable.length} people`;
  return { state: 'ok', detail: `${who} can be told${waiting > 0 ? `, ${waiting} messages wait` : ''}` };
}
