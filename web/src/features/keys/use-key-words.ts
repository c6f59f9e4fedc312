/** What the page of keys says itself, and who was turned away by the broker. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageKeysTexts } from '../../../../shared/messages/made/en/page-keys.ts';
import type { PageKeysParams } from '../../../../shared/messages/made/params/page-keys.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export type KeyWords = PageWords<PageKeysParams>;

export const useKeyWords = (): KeyWords => usePageTexts(pageKeysTexts, formatQuantity);
