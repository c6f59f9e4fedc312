/** How the delivery of warnings stands, in one line. */

import type { Clock } from '../../shared/clock.ts';
import { message } from '../../shared/messages/message.ts';
import { type PartHealth, partHealth } from '../../shared/part-health.ts';
import type { Journal } from '../../shared/store/journal.ts';
import { msPerDay } from '../../shared/units.ts';
import type { Recipients } from './people.ts';

export type DeliveryHealth = PartHealth;

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
  if (failing !== '') return partHealth('down', message('health.delivery.failing', { problemText: failing }));
  const counts = await journal.notifications.messages.counts();
  const sum = (state: string, of: 'count' | 'unseen' = 'count') =>
    counts.filter((row) => row.state === state).reduce((total, row) => total + row[of], 0);
  const reachable = (await people.listeners()).filter(({ channels }) => channels.length > 0);
  // Before what was lost: that the next warning reaches nobody either matters more.
  if (reachable.length === 0) return partHealth('off', message('health.delivery.nobody'));
  const lost = sum('given-up', 'unseen');
  if (lost > 0) return partHealth('degraded', message('health.delivery.lost', { lostCount: lost }));
  const setAside = await journal.notifications.notices.setAside(clock.nowMs() - setAsideSaidMs);
  if (setAside > 0) return partHealth('degraded', message('health.delivery.set-aside', { asideCount: setAside }));
  const waitingCount = sum('waiting') + sum('held');
  return partHealth('ok', message('health.delivery.ok', { personCount: reachable.length, waitingCount }));
}
