/** What the page of how long readings are kept says itself. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageRetentionTexts } from '../../../../shared/messages/made/en/page-retention.ts';
import type { PageRetentionParams } from '../../../../shared/messages/made/params/page-retention.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export type RetentionWords = PageWords<PageRetentionParams>;

export const useRetentionWords = (): RetentionWords => usePageTexts(pageRetentionTexts, formatQuantity);
