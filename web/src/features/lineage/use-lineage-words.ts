/** What the page of a family says itself. */
import { pageLineageTexts } from '../../../../shared/messages/made/en/page-lineage.ts';
import type { PageLineageParams } from '../../../../shared/messages/made/params/page-lineage.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export const useLineageWords = (): PageWords<PageLineageParams> => usePageTexts(pageLineageTexts);
