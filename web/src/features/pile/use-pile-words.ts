/** What a pile's page says itself. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pagePileTexts } from '../../../../shared/messages/made/en/page-pile.ts';
import type { PagePileParams } from '../../../../shared/messages/made/params/page-pile.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export type PileWords = PageWords<PagePileParams>;

/** @param siteId Whose zone moments are shown in, where the person wants that. */
export const usePileWords = (siteId?: string): PileWords => usePageTexts(pagePileTexts, formatQuantity, siteId);
