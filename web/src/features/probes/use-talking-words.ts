/** What is said of probes that talk, where one of them is to be picked. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageTalkingTexts } from '../../../../shared/messages/made/en/page-talking.ts';
import type { PageTalkingParams } from '../../../../shared/messages/made/params/page-talking.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export const useTalkingWords = (): PageWords<PageTalkingParams> => usePageTexts(pageTalkingTexts, formatQuantity);
