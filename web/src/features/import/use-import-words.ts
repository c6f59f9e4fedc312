/** What the page of imports says itself; what a file comes to is a message. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageImportTexts } from '../../../../shared/messages/made/en/page-import.ts';
import type { PageImportParams } from '../../../../shared/messages/made/params/page-import.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export type ImportWords = PageWords<PageImportParams>;

export const useImportWords = (): ImportWords => usePageTexts(pageImportTexts, formatQuantity);
