import type { BatchDetail } from '../../../shared/contracts/lineage.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { batchDetail } from './batch-detail.ts';
import { readFamily } from './family.ts';

/** A batch as the journal has it now; undefined when there is none of this id. */
export async function shownBatch(journal: Journal, id: string): Promise<BatchDetail | undefined> {
  const family = await readFamily(journal);
  const batch = family.batches.get(id);
  return batch && batchDetail(family, batch);
}
