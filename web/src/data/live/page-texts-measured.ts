/** What a page says, every amount in the units this person measures in. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import type { PageTexts } from '../../../../shared/messages/page-text.ts';
import { usePlanUnits } from '../plan-units.ts';
import { type PageWords, pageWords } from './page-texts.ts';
import { useMessageReader } from './use-say.ts';

/** As `usePageTexts`, with masses, volumes and lengths too as they were chosen. */
export function usePageTextsMeasured<All>(texts: PageTexts<All>, siteId?: string): PageWords<All> {
  const units = usePlanUnits();
  const reader = useMessageReader(siteId);
  return pageWords(texts, { ...reader, units }, formatQuantity);
}
