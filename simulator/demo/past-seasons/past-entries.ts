/** What the keepers of the invented years wrote down. */
import type { EntryRecord } from '../../../shared/store/journal.ts';
import { msPerHour } from '../../../shared/units.ts';
import type { outcomeOf } from './outcome.ts';
import type { PastBatch } from './past-plan.ts';

export const keepers = { 'saltmere-yard': 'Ines', 'saltmere-terrace': 'Tomas' } as const;

export function entriesOf(batch: PastBatch, endMs: number, outcome: ReturnType<typeof outcomeOf>): EntryRecord[] {
  const entry = (place: string, atMs: number, what: EntryRecord['what'], note: string | null = null): EntryRecord => ({
    id: `${batch.id}-${place}`,
    entryId: `${batch.id}-${place}`,
    version: 1,
    pileId: batch.pileId,
    atMs: Math.round(atMs),
    recordedAtMs: Math.round(atMs),
    by: keepers[batch.site],
    note,
    photoIds: [],
    what,
    reason: null,
    withdrawn: false,
  });
  const entries = batch.acts.flatMap((act, i) => {
    const atMs = batch.laidAtMs + act.afterH * msPerHour;
    if (atMs >= endMs) return [];
    if (act.kind === 'turn') return [entry(`turn-${i}`, atMs, { kind: 'turned' })];
    if (act.kind === 'water') return [entry(`water-${i}`, atMs, { kind: 'watered', amountL: act.waterKg })];
    return [];
  });
  const { smell, look, ready, verdict, why } = outcome;
  entries.push(entry('word', endMs - 3 * msPerHour, { kind: 'readiness', smell, look, ready }, outcome.words));
  entries.push(entry('verdict', endMs + msPerHour, { kind: 'verdict', batchId: batch.id, verdict, why }));
  return entries;
}
