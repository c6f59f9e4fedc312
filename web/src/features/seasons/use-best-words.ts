/** What is said of the best batch. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageBestTexts } from '../../../../shared/messages/made/en/page-best.ts';
import type { PageBestParams } from '../../../../shared/messages/made/params/page-best.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export const useBestWords = (): PageWords<PageBestParams> => usePageTexts(pageBestTexts, formatQuantity);
