/** A pile as it is shown before anybody has judged it: what is written down of it, and nothing more. */
import type { PileSummary } from '../../../shared/contracts/piles.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { inWords } from '../../../shared/messages/in-words.ts';
import { message } from '../../../shared/messages/message.ts';
import type { BatchRecord, PileRecord } from '../../../shared/store/journal.ts';

const beingRead = inWords({ condition: message('say.read-first-time'), next: message('say.next.wait') }, 0);
const nothingLaid = inWords({ condition: message('say.no-batch'), next: message('say.next.start-batch') }, 0);

export function unseenPile(pile: PileRecord, batch: BatchRecord | null): PileSummary {
  return {
    id: pile.id,
    name: pile.name,
    site: pile.siteId,
    stage: batch?.stage ?? 'bran',
    batch: batch && {
      id: batch.id,
      startedAt: toInstant(batch.startedAtMs),
      progress: 0,
      phase: 'resting',
      phaseReason: 'not-judged',
    },
    positions: {},
    ...(batch ? beingRead : nothingLaid),
    tone: batch ? 'unknown' : 'calm',
    alarms: [],
  };
}
