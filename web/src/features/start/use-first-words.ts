/** What is said while the first message of a probe is waited for. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageFirstTexts } from '../../../../shared/messages/made/en/page-first.ts';
import type { PageFirstParams } from '../../../../shared/messages/made/params/page-first.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export const useFirstWords = (): PageWords<PageFirstParams> => usePageTexts(pageFirstTexts, formatQuantity);
