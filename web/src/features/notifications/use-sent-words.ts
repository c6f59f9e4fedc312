/** What became of a message, in words. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageSentTexts } from '../../../../shared/messages/made/en/page-sent.ts';
import type { PageSentParams } from '../../../../shared/messages/made/params/page-sent.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export type SentWords = PageWords<PageSentParams>;

export const useSentWords = (): SentWords => usePageTexts(pageSentTexts, formatQuantity);
