/** What the page of the search says itself. */
import { pageSearchTexts } from '../../../../shared/messages/made/en/page-search.ts';
import type { PageSearchParams } from '../../../../shared/messages/made/params/page-search.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export const useSearchWords = (): PageWords<PageSearchParams> => usePageTexts(pageSearchTexts);
