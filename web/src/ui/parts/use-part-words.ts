/** What parts say that pages share; whatever the first page shows has its words in `use-shell-words.ts`. */
import { pagePartsTexts } from '../../../../shared/messages/made/en/page-parts.ts';
import type { PagePartsParams } from '../../../../shared/messages/made/params/page-parts.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export const usePartWords = (): PageWords<PagePartsParams> => usePageTexts(pagePartsTexts);
