/** What the page of probes says itself. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageProbesTexts } from '../../../../shared/messages/made/en/page-probes.ts';
import type { PageProbesParams } from '../../../../shared/messages/made/params/page-probes.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export type ProbeWords = PageWords<PageProbesParams>;

export const useProbeWords = (): ProbeWords => usePageTexts(pageProbesTexts, formatQuantity);
