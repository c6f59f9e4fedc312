import type { EntriesQuestion, EntryRecord } from '../../shared/store/entry-records.ts';
import type { Journal } from '../../shared/store/journal.ts';

const pageRows = 1000;

/** All entries that a question asks for, newest first, read a page at a time. */
export async function* allEntries(
  journal: Pick<Journal, 'entries'>,
  question: Omit<EntriesQuestion, 'limit' | 'after'>,
): AsyncGenerator<EntryRecord> {
  for (let after: EntryRecord | undefined; ; ) {
    const page = await journal.entries.list({ ...question, limit: pageRows, ...(after && { after }) });
    yield* page;
    after = page.at(-1);
    if (page.length < pageRows) return;
  }
}
