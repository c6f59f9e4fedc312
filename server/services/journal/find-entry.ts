import type { Entry, EntryVersion } from '../../../shared/contracts/journal.ts';
import type { EntryRecord, Journal } from '../../../shared/store/journal.ts';
import { batchAt } from './batch-at.ts';
import { entryView, versionView } from './entry-view.ts';

export interface FoundEntry {
  readonly newest: EntryRecord;
  readonly entry: Entry;
  /** What it said before, newest first. */
  readonly earlier: EntryVersion[];
}

export async function findEntry(journal: Journal, entryId: string): Promise<FoundEntry | undefined> {
  const versions = await journal.entries.versions(entryId);
  const newest = versions.at(-1);
  if (!newest) return undefined;
  const batches = await journal.batches.list(newest.pileId);
  const earlier = versions.slice(0, -1).reverse();
  return {
    newest,
    entry: entryView(newest, batches),
    earlier: earlier.map((one) => versionView(one, batchAt(batches, one.pileId, one.atMs)?.stage)),
  };
}
