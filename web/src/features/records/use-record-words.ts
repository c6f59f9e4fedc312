/** What the pages of records, files and labels say themselves. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageRecordsTexts } from '../../../../shared/messages/made/en/page-records.ts';
import type { PageRecordsParams } from '../../../../shared/messages/made/params/page-records.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export type RecordWords = PageWords<PageRecordsParams>;

/** @param siteId Whose zone moments are shown in, where the person wants that. */
export const useRecordWords = (siteId?: string): RecordWords => usePageTexts(pageRecordsTexts, formatQuantity, siteId);
