/** What the page of practice says itself, and what the simulator finds, in words. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { cautionTexts } from '../../../../shared/messages/made/en/caution.ts';
import { conditionTexts } from '../../../../shared/messages/made/en/condition.ts';
import { laidTexts } from '../../../../shared/messages/made/en/laid.ts';
import { materialTexts } from '../../../../shared/messages/made/en/material.ts';
import { pagePracticeTexts } from '../../../../shared/messages/made/en/page-practice.ts';
import { practiceTexts } from '../../../../shared/messages/made/en/practice.ts';
import { squeezeTexts } from '../../../../shared/messages/made/en/squeeze.ts';
import type { PagePracticeParams } from '../../../../shared/messages/made/params/page-practice.ts';
import type { Say } from '../../../../shared/messages/message.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';
import { useSay } from '../../data/live/use-say.ts';

const renderPractice = rendererOf({
  ...practiceTexts,
  ...cautionTexts,
  ...squeezeTexts,
  ...laidTexts,
  ...materialTexts,
  ...conditionTexts,
});

export type PracticeWords = PageWords<PagePracticeParams>;

export const usePracticeWords = (): PracticeWords => usePageTexts(pagePracticeTexts, formatQuantity);

export const usePracticeSay = (): Say => useSay(renderPractice);
