/** What the pages of batches and lots say themselves. */
import { pageBatchTexts } from '../../../../shared/messages/made/en/page-batch.ts';
import type { PageBatchParams } from '../../../../shared/messages/made/params/page-batch.ts';
import type { PageWords } from '../../data/live/page-texts.ts';
import { usePageTextsMeasured } from '../../data/live/page-texts-measured.ts';

export type BatchWords = PageWords<PageBatchParams>;

/** @param siteId Whose zone moments are shown in, where the person wants that. */
export const useBatchWords = (siteId?: string): BatchWords => usePageTextsMeasured(pageBatchTexts, siteId);
