import type { z } from 'zod';
import type { EntriesAnswer, entriesQuerySchema } from '../../../shared/contracts/journal.ts';
import type { EntriesQuestion, Journal } from '../../../shared/store/journal.ts';
import { entryView } from './entry-view.ts';

/**
 * One page of a journal, newest entries first.
 * @param within Whose entries, and of what time: the query may narrow that, never widen it.
 * @returns With the cursor of the next page; null on the last.
 */
export async function entriesPage(
  journal: Journal,
  query: z.output<typeof entriesQuerySchema>,
  within: Pick<EntriesQuestion, 'pileId' | 'fromMs' | 'toMs' | 'batchId'>,
): Promise<EntriesAnswer> {
  const { from, to, kind, withdrawn, limit, after } = query;
  const last = after === undefined ? undefined : readCursor(after);
  const entries = await journal.entries.list({
    ...within,
    fromMs: Math.max(from ?? 0, within.fromMs ?? 0),
    toMs: Math.min(to ?? Number.MAX_SAFE_INTEGER, within.toMs ?? Number.MAX_SAFE_INTEGER),
    ...(kind && { kinds: [kind] }),
    ...(last && { after: last }),
    withdrawn: withdrawn === 'yes',
    limit,
  });
  const batches = await journal.batches.list(within.pileId);
  const end = entries.length === limit ? entries.at(-1) : undefined;
  return {
    entries: entries.map((entry) => entryView(entry, batches)),
    next: end ? `${end.atMs}_${end.entryId}` : null,
  };
}

/** Undefined for what is no cursor of ours: the list then starts at its beginning. */
function readCursor(text: string): { atMs: number; entryId: string } | undefined {
  const parts = /^(-?\d{1,16})_(.+)$/.exec(text);
  return parts?.[2] === undefined ? undefined : { atMs: Number(parts[1]), entryId: parts[2] };
}
