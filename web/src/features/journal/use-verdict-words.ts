/** What is asked and said of verdicts. */
import { pageVerdictTexts } from '../../../../shared/messages/made/en/page-verdict.ts';
import type { PageVerdictParams } from '../../../../shared/messages/made/params/page-verdict.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export const useVerdictWords = (): PageWords<PageVerdictParams> => usePageTexts(pageVerdictTexts);
