/** What the pages of seasons say themselves; sentences about batches are messages (`render-season.ts`). */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageSeasonsTexts } from '../../../../shared/messages/made/en/page-seasons.ts';
import type { PageSeasonsParams } from '../../../../shared/messages/made/params/page-seasons.ts';
import type { Say } from '../../../../shared/messages/message.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';
import { useSay } from '../../data/live/use-say.ts';
import { renderSeason } from './render-season.ts';

export type SeasonWords = PageWords<PageSeasonsParams>;

export const useSeasonWords = (): SeasonWords => usePageTexts(pageSeasonsTexts, formatQuantity);

export const useSaySeason = (): Say => useSay(renderSeason);
