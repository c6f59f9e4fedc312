import type { Clock } from '../../shared/clock.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { ReadingError, type RefusalReason } from '../../shared/errors.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import type { Quantity } from '../../shared/quantity.ts';
import type { Reading } from '../../shared/reading.ts';
import { type AppendResult, appended } from '../../shared/store/readings-store.ts';
import type { Refusals } from '../decode/refusals.ts';

export interface CommitOutcomeParts {
  /** First level of the topics. */
  readonly root: string;
  readonly clock: Clock;
  readonly refusals: Pick<Refusals, 'count'>;
  /** Never throws. */
  onCommitted(readings: readonly Reading[], atMs: number): void;
}

export interface CommitOutcomes {
  /** Readings and batches so far. */
  readonly counted: { readonly stored: number; readonly duplicates: number; readonly batches: number };
  /** What the store made of a batch: what was new is passed on, what it could not keep is counted as refused. */
  committed(readings: readonly Reading[], result: AppendResult): void;
}

export function createCommitOutcomes({ root, clock, refusals, onCommitted }: CommitOutcomeParts): CommitOutcomes {
  const counted = { stored: 0, duplicates: 0, batches: 0 };

  function countRefused(readings: readonly Reading[], result: AppendResult): void {
    for (const [index, { site, probe, quantity, value, atMs }] of readings.entries()) {
      const outcome = result.outcomes[index];
      const found = `${quantity} ${value} at ${toInstant(atMs)}`;
      const names = { siteName: site, probeName: probe, foundPart: readingSaid(quantity, value, toInstant(atMs)) };
      const refuse = (reason: RefusalReason, said: Message) =>
        refusals.count(new ReadingError(reason, said), `${root}/${site}/${probe}`, found);
      if (outcome === appended.conflict) {
        refuse('conflicting-value', message('refusal.conflicting', { ...names, quantityName: quantity }));
      } else if (outcome === appended.beforeWatermark) {
        refuse('already-downsampled', message('refusal.downsampled', names));
      }
    }
  }

  return {
    counted,
    committed(readings, result) {
      counted.batches += 1;
      counted.stored += result.newCount;
      counted.duplicates += result.duplicateCount;
      if (result.conflictCount + result.beforeWatermarkCount > 0) countRefused(readings, result);
      if (result.newCount > 0) onCommitted(onlyNew(readings, result), clock.nowMs());
    },
  };
}

function onlyNew(readings: readonly Reading[], result: AppendResult): readonly Reading[] {
  if (result.newCount === readings.length) return readings;
  return readings.filter((_, index) => result.outcomes[index] === appended.new);
}

function readingSaid(quantity: Quantity, value: number, timeText: string): Message {
  if (quantity === 'temperature') return message('refusal.found.temperature', { foundC: value, timeText });
  return message('refusal.found.other', { quantityName: quantity, valueText: String(value), timeText });
}
