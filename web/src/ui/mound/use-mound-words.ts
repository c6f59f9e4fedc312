/** What drawings of a pile say. */
import { pageMoundTexts } from '../../../../shared/messages/made/en/page-mound.ts';
import type { PageMoundParams } from '../../../../shared/messages/made/params/page-mound.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export type MoundWords = Pick<PageWords<PageMoundParams>, 'text'>;

export const useMoundWords = (): MoundWords => usePageTexts(pageMoundTexts);
