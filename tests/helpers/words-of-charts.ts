/** What charts say, as whoever reads English in °C has it. */
import { formatQuantity, plainReader } from '../../shared/messages/format.ts';
import { pageChartTexts } from '../../shared/messages/made/en/page-chart.ts';
import { pageWords } from '../../web/src/data/live/page-texts.ts';

export const chartWords = pageWords(pageChartTexts, plainReader(0), formatQuantity);
