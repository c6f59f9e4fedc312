/** The heat of one batch as its judge remembers it: by the batch's own limits and the entries that people made since. */
import { type HeatHistory, startHeatHistory } from '../../../core/records/heat-history.ts';
import { stageLimits } from '../../../shared/stage.ts';
import type { BatchRecord, EntryRecord } from '../../../shared/store/journal.ts';
import { heardIn } from '../../pile/heard-by-judge.ts';

/** @returns Nothing followed yet: give it to `heatLogs`. */
export function batchHeatHistory(batch: BatchRecord, entries: readonly EntryRecord[]): HeatHistory {
  const { noted = [] } = heardIn(entries.filter(({ withdrawn }) => !withdrawn));
  const { actC, lossC } = { ...stageLimits[batch.stage], ...batch.limits };
  return startHeatHistory({ actC, lossC }, noted);
}
