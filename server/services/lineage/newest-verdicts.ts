/** The verdict of each batch: of several the one that was given last. */
import { entryMessage } from '../../../core/records/entry-message.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { BatchVerdict } from '../../../shared/contracts/verdict.ts';
import type { EntryFacts } from '../../../shared/entry.ts';
import { inWords } from '../../../shared/messages/in-words.ts';
import type { EntryRecord, Journal } from '../../../shared/store/journal.ts';
import { allEntries } from '../../pile/all-entries.ts';

export type VerdictRecord = EntryRecord & { readonly what: Extract<EntryFacts, { readonly kind: 'verdict' }> };

/** @returns By the batch that each judges. */
export async function newestVerdicts(journal: Pick<Journal, 'entries'>): Promise<Map<string, VerdictRecord>> {
  const newest = new Map<string, VerdictRecord>();
  for await (const entry of allEntries(journal, { kinds: ['verdict'] })) {
    if (isVerdict(entry) && !newest.has(entry.what.batchId)) newest.set(entry.what.batchId, entry);
  }
  return newest;
}

function isVerdict(entry: EntryRecord): entry is VerdictRecord {
  return entry.what.kind === 'verdict';
}

export function verdictView({ what, note, by, atMs, entryId, id }: VerdictRecord): BatchVerdict {
  return {
    verdict: what.verdict,
    why: what.why ?? null,
    note,
    by,
    at: toInstant(atMs),
    entryId,
    versionId: id,
    ...inWords({ says: entryMessage(what) }, 0),
  };
}
