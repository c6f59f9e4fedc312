/** What the journal says itself, on its own page and as a part of others. */
import { pageJournalTexts } from '../../../../shared/messages/made/en/page-journal.ts';
import type { PageJournalParams } from '../../../../shared/messages/made/params/page-journal.ts';
import type { PageWords } from '../../data/live/page-texts.ts';
import { usePageTextsMeasured } from '../../data/live/page-texts-measured.ts';

export type JournalWords = PageWords<PageJournalParams>;

export const useJournalWords = (): JournalWords => usePageTextsMeasured(pageJournalTexts);
