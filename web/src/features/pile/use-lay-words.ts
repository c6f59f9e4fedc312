/** What is asked of a pile that is laid, on whichever page. */
import { pageLayTexts } from '../../../../shared/messages/made/en/page-lay.ts';
import type { PageLayParams } from '../../../../shared/messages/made/params/page-lay.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export const useLayWords = (): PageWords<PageLayParams> => usePageTexts(pageLayTexts);
