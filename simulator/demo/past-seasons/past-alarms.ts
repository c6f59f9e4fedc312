import { message } from '../../../shared/messages/message.ts';
import type { AlarmRecord } from '../../../shared/store/journal.ts';
import type { PastBatch } from './past-plan.ts';
import type { PlayedBatch } from './play-past.ts';

/** The core over 50 °C until it is a degree below again: what a keeper with a thermometer would have been warned of. */
export function alarmsOf({ batch, readings }: PlayedBatch, endMs: number): AlarmRecord[] {
  const alarms: AlarmRecord[] = [];
  let raisedAtMs: number | null = null;
  let highestC = 0;
  const close = (atMs: number) => {
    if (raisedAtMs === null) return;
    alarms.push(overheating(batch, alarms.length, raisedAtMs, atMs, highestC));
    raisedAtMs = null;
    highestC = 0;
  };
  for (const { probe, quantity, atMs, value } of readings) {
    if (quantity !== 'temperature' || !probe.endsWith('-core')) continue;
    if (value >= 50) raisedAtMs ??= atMs;
    if (raisedAtMs !== null) highestC = Math.max(highestC, value);
    if (value < 49) close(atMs);
  }
  close(endMs);
  return alarms;
}

function overheating(batch: PastBatch, i: number, fromMs: number, toMs: number, highestC: number): AlarmRecord {
  return {
    id: `${batch.id}-hot-${i}`,
    pileId: batch.pileId,
    kind: 'overheating',
    position: 'core',
    severity: highestC >= 60 ? 'urgent' : 'warning',
    state: 'normal',
    raisedAtMs: fromMs,
    changedAtMs: toMs,
    closedAtMs: toMs,
    machine: {
      state: 'normal',
      sinceMs: toMs,
      hold: { condition: 'clear', sinceMs: toMs },
      firstRaisedAtMs: null,
      severity: null,
      shelvedUntilMs: null,
    },
    words: {
      seen: message('warnings.overheating.seen.above', {
        hottestPart: message('warnings.value.of-pile.now', { position: 'core', tempC: highestC }),
        limitC: 50,
      }),
      todo: message('warnings.overheating.todo.turn'),
      byMs: null,
      caution: null,
    },
  };
}
