/** Lots as the API shows them. */
import type { Lot } from '../../../shared/contracts/lots.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { LotRecord } from '../../../shared/store/journal.ts';

export function lotView({ createdAtMs, facts, ...lot }: LotRecord): Lot {
  return { ...lot, createdAt: toInstant(createdAtMs), facts: factsView(facts) };
}

function factsView(facts: LotRecord['facts']): Lot['facts'] {
  if (facts.kind === 'starter') {
    const { collectedAt, ...starter } = facts;
    return { ...starter, ...(collectedAt !== undefined && { collectedAt: toInstant(collectedAt) }) };
  }
  const { receivedAt, ...material } = facts;
  return { ...material, ...(receivedAt !== undefined && { receivedAt: toInstant(receivedAt) }) };
}
