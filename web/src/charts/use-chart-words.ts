/** What the charts of a pile and their tables say. */
import { formatQuantity } from '../../../shared/messages/format.ts';
import { pageChartTexts } from '../../../shared/messages/made/en/page-chart.ts';
import type { PageChartParams } from '../../../shared/messages/made/params/page-chart.ts';
import { type PageWords, usePageTexts } from '../data/live/page-texts.ts';

export type ChartWords = PageWords<PageChartParams>;

export const useChartWords = (): ChartWords => usePageTexts(pageChartTexts, formatQuantity);
