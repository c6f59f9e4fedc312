/** How many batches are working, as the page of batches opens. */
import type { BatchView } from '../../../../shared/contracts/lineage.ts';
import { capital, countWord } from '../../ui/format/words.ts';

/** @example "Two batches are working." */
export function batchesSentence(batches: readonly Pick<BatchView, 'endedAt'>[]): string {
  const open = batches.filter((batch) => batch.endedAt === null).length;
  if (batches.length === 0) return 'No batch was laid yet.';
  if (open === 0) return 'No batch is working now.';
  return `${capital(countWord(open))} ${open === 1 ? 'batch is' : 'batches are'} working.`;
}
